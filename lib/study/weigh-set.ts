import { type CheckedNeed, checkRestNeeds } from "@/lib/breath/check-rest-needs";
import { type CutWeight, weighCut } from "@/lib/cuts/weigh-cut";
import type { RestNeed } from "@/lib/edition/rest-need";
import type { CutSpan } from "@/lib/score/cut-span";
import { leaveOut } from "@/lib/score/leave-out";
import { findRunningTime, type RunningTime } from "@/lib/score/running-time";
import type { Study } from "./open-study";

/** A set of cuts beside those that are agreed. None shares bars with another. */
export interface SetQuestion {
  readonly cuts: readonly CutSpan[];
  readonly agreed: readonly CutSpan[];
  readonly needs: readonly RestNeed[];
}

/** What one cut of a set does, all the others made. */
export interface WeighedCut extends Pick<CutWeight, "barCount" | "savedSeconds" | "rest" | "soloNotesLost"> {
  readonly cut: CutSpan;
}

/** What a whole set does: the figures behind it, by the duo's tempi. */
export interface WeighedSet {
  readonly runningTime: RunningTime;
  /** In the order of the question. */
  readonly cuts: readonly WeighedCut[];
  /** In the order given. */
  readonly needs: readonly CheckedNeed[];
}

/** @throws RangeError if a cut cannot be made or a need lies outside the piece. */
export function weighSet({ score, order, map }: Study, { cuts, agreed, needs }: SetQuestion): WeighedSet {
  const all = [...agreed, ...cuts];
  return {
    runningTime: findRunningTime(score, leaveOut(score, order, all), map),
    cuts: cuts.map((cut) => {
      const others = all.filter((other) => other !== cut);
      const { barCount, savedSeconds, rest, soloNotesLost } = weighCut(score, map, others, cut);
      return { cut, barCount, savedSeconds, rest, soloNotesLost };
    }),
    needs: checkRestNeeds(score, map, all, needs),
  };
}
