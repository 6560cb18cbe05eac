import type { CutSpan } from "@/lib/score/cut-span";
import { readMilliseconds, sumPerformed } from "@/lib/score/millisecond-clock";
import { onsetOf } from "@/lib/score/onset-of";
import { paceTempoMap } from "@/lib/score/pace-tempo-map";
import { compareQuarters, noQuarters } from "@/lib/score/quarters";
import { type RestReading, readRests } from "@/lib/score/rest-left";
import type { Score } from "@/lib/score/score";
import type { TempoMap } from "@/lib/score/tempo-map";
import { readCutRules } from "../check-cut";
import { sayCutProblem } from "../say-cut-problem";
import { meetsAgreed, mergeAgreed } from "./agreed-cuts";
import type { Choice, Choices } from "./combine-choices";
import { type CutCandidate, defaultPlanWeights, type KeepSpan, type PlanWeights } from "./cut-candidate";
import { type Cluster, findClusters } from "./find-clusters";
import { keepRests, type PlacedNeed, placeNeeds } from "./kept-rests";
import { type ChoicePair, ClusterPlan } from "./plan-cluster";
import { type Ground, layGround } from "./plan-ground";
import type { PlanOptions } from "./plan-options";

/** A candidate that may not be chosen, and why. */
export interface RefusedCandidate {
  readonly index: number;
  readonly why: string;
}

/** Everything a plan is computed from. */
export interface PlanSetting {
  readonly score: Score;
  readonly map: TempoMap;
  readonly candidates: readonly CutCandidate[];
  readonly options: PlanOptions;
  readonly weights: PlanWeights;
  /** Cuts that every set has, in written order; those that touch are one. */
  readonly agreed: readonly CutSpan[];
  readonly reading: RestReading;
  readonly wholeMilliseconds: number;
  /** Null when there is no limit. */
  readonly limitMilliseconds: number | null;
  readonly refused: readonly RefusedCandidate[];
  readonly ground: Ground;
  readonly clusters: readonly Cluster[];
  readonly placed: readonly PlacedNeed[];
}

function takesFrom(score: Score, cut: CutCandidate, keep: KeepSpan): boolean {
  const [from, to] = [onsetOf(score, keep.from), onsetOf(score, keep.to)];
  if (compareQuarters(from, to) > 0) throw new RangeError(`What is kept ends before it begins: ${keep.why}`);
  return (
    compareQuarters(onsetOf(score, cut.from), to) < 0 && compareQuarters(from, onsetOf(score, cut.to)) < 0
  );
}

function findReasons(
  score: Score,
  candidates: readonly CutCandidate[],
  keep: readonly KeepSpan[],
  agreed: readonly CutSpan[],
) {
  const check = readCutRules(score);
  return candidates.map((cut) => {
    const checked = check(cut);
    if (!checked.ok) return sayCutProblem(checked.problem);
    const taken = keep.find((span) => takesFrom(score, cut, span));
    return taken ? `It takes from what is kept: ${taken.why}.` : meetsAgreed(score, agreed, cut);
  });
}

/** @throws RangeError if a need, a kept span, a cost, a weight or the limit makes no sense. */
export function preparePlan(
  score: Score,
  map: TempoMap,
  candidates: readonly CutCandidate[],
  options: PlanOptions,
): PlanSetting {
  const { limitSeconds, rests = [], keep = [] } = options;
  const agreed = mergeAgreed(score, options.agreed ?? []);
  if (limitSeconds !== null && !(limitSeconds >= 0))
    throw new RangeError(`Not a limit: ${limitSeconds} seconds`);
  const weights = { ...defaultPlanWeights, ...options.weights };
  const reading = readRests(score, paceTempoMap(map, options.restPace ?? "computed"));
  const clock = readMilliseconds(paceTempoMap(map, options.limitPace ?? "computed"));
  const reasons = findReasons(score, candidates, keep, agreed);
  const usable = reasons.flatMap((why, index) => (why === null ? [index] : []));
  const refused = reasons.flatMap((why, index) => (why === null ? [] : [{ index, why }]));
  const ground = layGround(reading, clock.at, candidates, usable, agreed, weights);
  const whole = { from: noQuarters, to: reading.order.length };
  return {
    score,
    map,
    candidates,
    options,
    weights,
    agreed,
    reading,
    wholeMilliseconds: sumPerformed(score, reading.order, clock.at, whole),
    limitMilliseconds: limitSeconds === null ? null : Math.round(1000 * limitSeconds),
    refused,
    ground,
    clusters: findClusters(ground, reading.silences.length),
    placed: placeNeeds(reading, rests, agreed),
  };
}

/** What has to be saved; 0 when everything can be played. */
export function neededSaving({ wholeMilliseconds, limitMilliseconds }: PlanSetting): number {
  return limitMilliseconds === null ? 0 : Math.max(0, wholeMilliseconds - limitMilliseconds);
}

/** What the agreed cuts save. */
export function agreedSaving({ ground }: PlanSetting): number {
  return ground.cuts.reduce((sum, cut) => sum + (cut.isAgreed ? cut.savedMilliseconds : 0), 0);
}

/** A plan of every cluster under the given needs. */
export function planClusters({ ground, clusters, placed }: PlanSetting, needs = placed): ClusterPlan[] {
  const kept = keepRests(needs);
  return clusters.map((cluster) => new ClusterPlan(ground, cluster, kept));
}

/** The same where costs do not matter: of the sets that come to the same only the one that saves most is followed. */
export function planForLength({ ground, clusters, placed }: PlanSetting, needs = placed): ClusterPlan[] {
  const kept = keepRests(needs);
  return clusters.map((cluster) => {
    const cuts = cluster.cuts.map((cut) => ({ ...cut, cost: 0 }));
    return new ClusterPlan(ground, { ...cluster, cuts }, kept);
  });
}

const mostOf = (choices: Choices): number => choices.at(-1)?.savedMilliseconds ?? 0;

/** The most that can be saved: the last choice of every cluster. */
export function mostSaved(clusters: readonly Choices[]): number {
  return clusters.reduce((sum, choices) => sum + mostOf(choices), 0);
}

/** The most that sums of pairs save; null without a pair. */
export function mostOfPairs(pairs: readonly ChoicePair[]): number | null {
  return pairs.length === 0 ? null : Math.max(...pairs.map(([left, right]) => mostOf(left) + mostOf(right)));
}

/** The cheapest set that saves enough; null when none does. Choices run from the least saved and cheapest up. */
export function cheapestSaving(choices: Choices, needed: number): Choice | null {
  return choices.find(({ savedMilliseconds }) => savedMilliseconds >= needed) ?? null;
}
