import { type Seconds, seconds } from "@/lib/score/seconds";
import { partsOfABar } from "@/lib/score/silent-bars";

import { type Choices, combineChoices } from "./combine-choices";
import { type KeptRest, keepRests, type PlacedNeed } from "./kept-rests";
import { planCluster } from "./plan-cluster";
import {
  cheapestSaving,
  mostSaved,
  neededSaving,
  type PlanSetting,
  planClusters,
  preparePlan,
} from "./plan-setting";
import { describeSet, type PlannedSet } from "./planned-set";

/** A need without which the limit could be met, all other needs kept. */
export interface RestInTheWay {
  readonly needId: string;
  /** The most of this rest that can be left, and what is missing, in the unit of the need. */
  readonly unit: "seconds" | "bars";
  readonly left: number;
  readonly shortBy: number;
  /** The cheapest set of cuts that leaves so much. */
  readonly set: PlannedSet;
}

/** Why no set of cuts fits. */
export interface Obstacle {
  /** Needs that stand in the way, each alone; the one that lacks least first. */
  readonly rests: readonly RestInTheWay[];
  /** Kept music that stands in the way, each alone: all needs kept, the limit could be met without it. */
  readonly keep: readonly { readonly why: string; readonly set: PlannedSet }[];
  /** By how much the limit is missed with all needs kept. */
  readonly missesBySeconds: Seconds;
  /** By how much even the shortest set misses it with all needs let go; 0 or less when that would do. */
  readonly missesWithoutNeedsBySeconds: Seconds;
}

/** The same needs, with another amount for one of them. */
const withAmount = (placed: readonly PlacedNeed[], need: PlacedNeed, amount: KeptRest): PlacedNeed[] =>
  placed.map((one) => (one === need ? { ...one, amount } : one));

/** The greatest whole number up to `most` with which it works; null when not even 0 does. */
function greatest(most: number, works: (amount: number) => boolean): number | null {
  if (!works(0)) return null;
  let [low, high] = [0, most];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (works(middle)) low = middle;
    else high = middle - 1;
  }
  return low;
}

function relaxNeed(
  setting: PlanSetting,
  choices: readonly Choices[],
  placed: PlacedNeed,
): RestInTheWay | null {
  const isInSeconds = "seconds" in placed.need.needs;
  const amount = (whole: number): KeptRest =>
    isInSeconds ? { milliseconds: whole, barParts: 0 } : { milliseconds: 0, barParts: whole * partsOfABar };
  const replan = (whole: number) => {
    const kept = keepRests(withAmount(setting.placed, placed, amount(whole)));
    return setting.clusters.map((cluster, index) => {
      const isTouched = placed.silences.some(({ silence }) => cluster.silences.has(silence));
      return isTouched ? planCluster(setting.ground, cluster, kept) : (choices[index] ?? []);
    });
  };
  const needed = neededSaving(setting);
  const asked = "seconds" in placed.need.needs ? placed.need.needs.seconds : placed.need.needs.bars;
  const most = isInSeconds ? placed.amount.milliseconds : Math.ceil(asked);
  const left = greatest(most, (whole) => mostSaved(replan(whole)) >= needed);
  if (left === null) return null;
  const set = cheapestSaving(combineChoices(replan(left)), needed);
  if (!set) return null;
  return {
    needId: placed.need.id,
    unit: isInSeconds ? "seconds" : "bars",
    left: isInSeconds ? left / 1000 : left,
    shortBy: isInSeconds ? (placed.amount.milliseconds - left) / 1000 : asked - left,
    set: describeSet(setting, set),
  };
}

function relaxKeep(setting: PlanSetting): Obstacle["keep"] {
  const { score, map, candidates, options } = setting;
  return (options.keep ?? []).flatMap((span) => {
    const keep = (options.keep ?? []).filter((other) => other !== span);
    const other = preparePlan(score, map, candidates, { ...options, keep });
    const choices = planClusters(other);
    if (mostSaved(choices) < neededSaving(other)) return [];
    const set = cheapestSaving(combineChoices(choices), neededSaving(other));
    return set ? [{ why: span.why, set: describeSet(other, set) }] : [];
  });
}

/**
 * What stands in the way when no set fits: needs and kept spans are let go one at a time.
 *
 * @param choices of all clusters with all needs kept.
 */
export function findObstacle(setting: PlanSetting, choices: readonly Choices[]): Obstacle {
  const needed = neededSaving(setting);
  const free = mostSaved(planClusters(setting, []));
  const rests = setting.placed.flatMap((placed) => {
    const relaxed = placed.silences.length > 0 && free >= needed ? relaxNeed(setting, choices, placed) : null;
    return relaxed ? [relaxed] : [];
  });
  // Seconds and bars do not compare: what is missing is ranked as a share of what is needed.
  const share = ({ left, shortBy }: RestInTheWay) => shortBy / (left + shortBy);
  const isMixed = new Set(rests.map(({ unit }) => unit)).size > 1;
  rests.sort((a, b) => (isMixed ? share(a) - share(b) : a.shortBy - b.shortBy));
  return {
    rests,
    keep: relaxKeep(setting),
    missesBySeconds: seconds((needed - mostSaved(choices)) / 1000),
    missesWithoutNeedsBySeconds: seconds((needed - free) / 1000),
  };
}
