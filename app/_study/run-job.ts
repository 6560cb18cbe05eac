import { findPrintedCues } from "@/lib/practice/printed-cues";
import type { Steps } from "@/lib/score/steps";
import { readSchedule } from "@/lib/sound/read-schedule";
import { assessRewrite } from "@/lib/study/assess-rewrite";
import { breathe } from "@/lib/study/breathe";
import { handsAtTempo } from "@/lib/study/hands-at-tempo";
import { judgeCut } from "@/lib/study/judge-cut";
import { lookForCuts } from "@/lib/study/look-for-cuts";
import type { Study } from "@/lib/study/open-study";
import { planPiece } from "@/lib/study/plan-piece";
import { practisePiece } from "@/lib/study/practise";
import { suggestRewrites } from "@/lib/study/suggest-rewrites";
import { weighSet } from "@/lib/study/weigh-set";
import type { StudyJob, StudyResults } from "./study-message";

/** How far a job has come, and its answer at the end. Between two steps it can be left. */
export type RunningJob = Steps<StudyResults[StudyJob["kind"]]>;

/** Starts a job. Nothing is computed before the first step. */
export function* runJob(study: Study, job: StudyJob): RunningJob {
  switch (job.kind) {
    case "judge":
      return judgeCut(study, job.question);
    case "look":
      return yield* lookForCuts(study, job.question);
    case "plan":
      return yield* planPiece(study, job.question);
    case "weigh-set":
      return weighSet(study, job.question);
    case "breathe":
      return breathe(study, job.question);
    case "listen":
      return readSchedule(study.score, study.map, job.question);
    case "hands":
      return yield* handsAtTempo(study, job.question);
    case "rewrite":
      return yield* suggestRewrites(study, job.question);
    case "assess-rewrite":
      return assessRewrite(study, job.question);
    case "practise":
      return yield* practisePiece(study, job.question);
    case "printed-cues":
      return findPrintedCues(study.score);
  }
}
