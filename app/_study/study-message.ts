import type { PracticePassage } from "@/lib/practice/practice-passage";
import type { Result } from "@/lib/score/result";
import type { ListenRequest } from "@/lib/sound/listen-request";
import type { Schedule } from "@/lib/sound/schedule";
import type { AssessedRewrite, RewriteToAssess } from "@/lib/study/assess-rewrite";
import type { BreathAnswer, BreathQuestion } from "@/lib/study/breathe";
import type { HandsAtTempo, HandsQuestion } from "@/lib/study/hands-at-tempo";
import type { CutQuestion, JudgedCut, StudyProblem } from "@/lib/study/judge-cut";
import type { CutSearch, OfferedCut } from "@/lib/study/look-for-cuts";
import type { StudyTerms } from "@/lib/study/open-study";
import type { PiecePlan, PlanQuestion } from "@/lib/study/plan-piece";
import type { PracticeQuestion } from "@/lib/study/practise";
import type { SuggestedRewrites, SuggestQuestion } from "@/lib/study/suggest-rewrites";
import type { SetQuestion, WeighedSet } from "@/lib/study/weigh-set";

/** What can be asked of the study of a piece. Everything in a message is plain data. */
export type StudyJob =
  | { readonly kind: "judge"; readonly question: CutQuestion }
  | { readonly kind: "look"; readonly question: CutSearch }
  | { readonly kind: "plan"; readonly question: PlanQuestion }
  | { readonly kind: "weigh-set"; readonly question: SetQuestion }
  | { readonly kind: "breathe"; readonly question: BreathQuestion }
  | { readonly kind: "listen"; readonly question: ListenRequest }
  | { readonly kind: "hands"; readonly question: HandsQuestion }
  | { readonly kind: "rewrite"; readonly question: SuggestQuestion }
  | { readonly kind: "assess-rewrite"; readonly question: RewriteToAssess }
  | { readonly kind: "practise"; readonly question: PracticeQuestion }
  /** Words of the reduction that name instruments. */
  | { readonly kind: "printed-cues"; readonly question: null };

/** What each kind of job answers with. */
export interface StudyResults {
  readonly judge: Result<JudgedCut, StudyProblem>;
  readonly look: readonly OfferedCut[];
  readonly plan: PiecePlan;
  readonly "weigh-set": WeighedSet;
  readonly breathe: BreathAnswer;
  readonly listen: Schedule;
  readonly hands: HandsAtTempo;
  readonly rewrite: SuggestedRewrites;
  readonly "assess-rewrite": AssessedRewrite;
  readonly practise: readonly PracticePassage[];
  readonly "printed-cues": readonly string[];
}

/** To the worker. The first message opens the study, `cancel` ends a job that nobody waits for any more. */
export type ToStudy =
  | { readonly kind: "open"; readonly bytes: Uint8Array; readonly terms: StudyTerms }
  | { readonly kind: "ask"; readonly id: number; readonly job: StudyJob }
  | { readonly kind: "cancel"; readonly id: number };

/** From the worker. `scripts` are the paths it was loaded from; `done` goes from 0 to 1. */
export type FromStudy =
  | { readonly kind: "opened"; readonly scripts: readonly string[] }
  | { readonly kind: "unreadable"; readonly sentence: string }
  | { readonly kind: "progress"; readonly id: number; readonly done: number }
  | { readonly kind: "answer"; readonly id: number; readonly value: StudyResults[StudyJob["kind"]] }
  | { readonly kind: "failed"; readonly id: number; readonly detail: string };
