import type { Score } from "@/lib/score/score";
import { type Seconds, seconds } from "@/lib/score/seconds";
import type { TempoMap } from "@/lib/score/tempo-map";
import { type Choice, listCuts, noCuts } from "./combine-choices";
import { type CutCandidate, costUnit } from "./cut-candidate";
import { findObstacle, type Obstacle } from "./find-obstacle";
import { findRunnersUp, Surroundings } from "./find-runners-up";
import type { PlanOptions } from "./plan-options";
import {
  agreedSaving,
  cheapestSaving,
  neededSaving,
  type PlanSetting,
  planClusters,
  preparePlan,
  type RefusedCandidate,
} from "./plan-setting";
import { type AgreedCut, describeAgreed, describeSet, type PlannedSet } from "./planned-set";
import { sayPlan } from "./say-plan";

/** A set that nothing beats: every set that is as short costs as much or more. */
export interface FrontPoint {
  /** What is agreed included. */
  readonly savedSeconds: Seconds;
  readonly runsSeconds: Seconds;
  readonly cost: number;
  /** Indices of the candidates: new cuts only. */
  readonly cuts: readonly number[];
}

export interface CutPlan {
  /** The cheapest set that fits; the one that cuts nothing more than what is agreed when there is no limit. Null when nothing fits. */
  readonly best: PlannedSet | null;
  /** Other sets that fit, the cheapest first: each does without a cut of the best. */
  readonly runnersUp: readonly PlannedSet[];
  /** From "play everything that is not cut already" to "as short as it gets", every need kept. */
  readonly front: readonly FrontPoint[];
  readonly shortest: PlannedSet;
  /** Only when nothing fits. */
  readonly obstacle: Obstacle | null;
  /** Candidates that were not considered, with a sentence. */
  readonly refused: readonly RefusedCandidate[];
  /** What was given as agreed, in written order. */
  readonly agreed: readonly AgreedCut[];
  /** As written, with nothing cut. */
  readonly wholeSeconds: Seconds;
  /** As it stands: with the agreed cuts alone. */
  readonly standsSeconds: Seconds;
  readonly limitSeconds: number | null;
  readonly sentence: string;
}

/**
 * The cheapest set of cuts with which the piece fits its limit, every needed rest stays and what is kept is played. The cuts
 * of a set lie apart: something is played between any two. What is agreed is in every set. Exact, not greedy: nothing cheaper fits. Equal sets are
 * told apart by saving more, then by fewer cuts, so that the same input has the same answer.
 *
 * Clock time is taken in whole milliseconds (places are rounded, see `readMilliseconds`), cost in thousandths.
 *
 * @param candidates may overlap; the plan chooses among them.
 * @throws RangeError if the limit, a need, a kept span, an agreed cut, a cost or a weight makes no sense.
 */
export function planCuts(
  score: Score,
  map: TempoMap,
  candidates: readonly CutCandidate[],
  options: PlanOptions,
): CutPlan {
  const setting = preparePlan(score, map, candidates, options);
  const plans = planClusters(setting);
  const around = new Surroundings(plans.map(({ choices }) => choices));
  const { front } = around;
  const best = cheapestSaving(front, neededSaving(setting));
  const others = best ? findRunnersUp(setting, plans, around, best, options.runnersUp ?? 3) : [];
  const shortest = front.at(-1) ?? noCuts;
  const plan = {
    best: best ? describeSet(setting, best) : null,
    runnersUp: others.map((set) => describeSet(setting, set)),
    front: front.map((point) => showPoint(setting, point)),
    shortest: describeSet(setting, shortest),
    obstacle: best ? null : findObstacle(setting, plans, around),
    refused: setting.refused,
    agreed: describeAgreed(setting),
    wholeSeconds: seconds(setting.wholeMilliseconds / 1000),
    standsSeconds: seconds((setting.wholeMilliseconds - agreedSaving(setting)) / 1000),
    limitSeconds: options.limitSeconds,
  };
  return { ...plan, sentence: sayPlan(plan, options.rests ?? []) };
}

function showPoint({ wholeMilliseconds, candidates }: PlanSetting, choice: Choice): FrontPoint {
  return {
    savedSeconds: seconds(choice.savedMilliseconds / 1000),
    runsSeconds: seconds((wholeMilliseconds - choice.savedMilliseconds) / 1000),
    cost: choice.cost / costUnit,
    cuts: listCuts(choice).filter((index) => index < candidates.length),
  };
}

/** A set of the front, or any other set of candidates that lie apart, with what is agreed and all its evidence. */
export function describePlan(
  score: Score,
  map: TempoMap,
  candidates: readonly CutCandidate[],
  options: PlanOptions,
  cuts: readonly number[],
): PlannedSet {
  const setting = preparePlan(score, map, candidates, options);
  const chosen = setting.ground.cuts.filter(({ index, isAgreed }) => isAgreed || cuts.includes(index));
  return describeSet(setting, {
    savedMilliseconds: chosen.reduce((sum, cut) => sum + cut.savedMilliseconds, 0),
    cost: chosen.reduce((sum, cut) => sum + cut.cost, 0),
    count: cuts.length,
    cuts: chosen.reduce<Choice["cuts"]>((tree, { index }) => [tree, index], null),
  });
}
