import type { CutSpan } from "@/lib/score/cut-span";

/** A cut that could be made, with what it costs musically. */
export interface CutCandidate extends CutSpan {
  /** From 0 (nobody would notice) up; the scale is the caller's, and only sums of it are compared. */
  readonly cost: number;
  /** What the cost was judged by, in words; carried along. */
  readonly reasons: readonly string[];
}

/** A stretch that has to be played. */
export interface KeepSpan extends CutSpan {
  /** "the last 4 bars before letter C": completes "…is kept". */
  readonly why: string;
}

/** What makes a set of cuts dear: a sum over its cuts. */
export interface PlanWeights {
  /** For each unit of a candidate's own cost. */
  readonly join: number;
  /** For each cut, however good: one more thing for two people to remember. */
  readonly perCut: number;
  /** For each second of music that is left out. */
  readonly perSecond: number;
}

/** The candidates' own costs alone. The choice is ours; the duo may change it. */
export const defaultPlanWeights: PlanWeights = { join: 1, perCut: 0, perSecond: 0 };

/** Costs are added up in whole thousandths, so that a sum does not depend on its order. */
export const costUnit = 1000;

/** What is agreed costs nothing: there is nothing to choose any more. */
export const noCostRows = { join: 0, cut: 0, music: 0 } as const;

/**
 * What one cut adds to the cost of a set, in thousandths, by row.
 *
 * @throws RangeError for a cost or weight that is negative or no number: leaving a cut out could then be dearer.
 */
export function costRows(candidate: CutCandidate, savedMilliseconds: number, weights: PlanWeights) {
  const numbers = [candidate.cost, weights.join, weights.perCut, weights.perSecond];
  const wrong = numbers.find((number) => !(Number.isFinite(number) && number >= 0));
  if (wrong !== undefined) throw new RangeError(`Not a cost or a weight: ${wrong}`);
  return {
    join: Math.round(costUnit * weights.join * candidate.cost),
    cut: Math.round(costUnit * weights.perCut),
    music: Math.round((costUnit * weights.perSecond * savedMilliseconds) / 1000),
  };
}
