import { type CheckedNeed, checkRestNeeds } from "@/lib/breath/check-rest-needs";
import { checkCut } from "@/lib/cuts/check-cut";
import { assessJoin, type JoinAssessment } from "@/lib/cuts/join/assess-join";
import { nameCut } from "@/lib/cuts/name-cut";
import { sayCutProblem } from "@/lib/cuts/say-cut-problem";
import { type CutWeight, weighCut } from "@/lib/cuts/weigh-cut";
import type { RestNeed } from "@/lib/edition/rest-need";
import type { CutSpan } from "@/lib/score/cut-span";
import { failure, type Result, success } from "@/lib/score/result";
import type { Study } from "./open-study";

/** A cut in the light of what is agreed. */
export interface CutQuestion {
  readonly cut: CutSpan;
  /** The agreed cuts, without this one and without one that it would replace. They lie apart from it. */
  readonly agreed: readonly CutSpan[];
  readonly needs: readonly RestNeed[];
}

/** How a cut sounds, what it saves, and what it does to the soloist's needed rests. */
export interface JudgedCut {
  readonly cut: CutSpan;
  /** "bars 85–96". */
  readonly name: string;
  readonly join: JoinAssessment;
  readonly weight: CutWeight;
  /** The needs whose rest it changes, in the order given. */
  readonly needs: readonly CheckedNeed[];
}

/** A sentence for the reader when there is nothing to judge. */
export interface StudyProblem {
  readonly kind: "not-possible";
  readonly sentence: string;
}

/** Needs that have another verdict, or other figures, with the cut than without it. */
function findTouchedNeeds({ score, map }: Study, { cut, agreed, needs }: CutQuestion): CheckedNeed[] {
  const without = checkRestNeeds(score, map, agreed, needs);
  const withIt = checkRestNeeds(score, map, [...agreed, cut], needs);
  return withIt.filter(
    (need, index) =>
      need.seconds.after !== without[index]?.seconds.after || need.bars.after !== without[index]?.bars.after,
  );
}

/** Judges one cut. The problem is that it cannot be made. */
export function judgeCut(study: Study, question: CutQuestion): Result<JudgedCut, StudyProblem> {
  const { score, map } = study;
  const { cut, agreed } = question;
  const checked = checkCut(score, cut);
  if (!checked.ok) return failure({ kind: "not-possible", sentence: sayCutProblem(checked.problem) });
  return success({
    cut,
    name: nameCut(score, cut),
    join: assessJoin(study.heard(), cut),
    weight: weighCut(score, map, agreed, cut),
    needs: findTouchedNeeds(study, question),
  });
}
