import { type Seconds, seconds } from "@/lib/score/seconds";
import { partsOfABar } from "@/lib/score/silent-bars";

import { addChoices, type Choice, combineChoices } from "./combine-choices";
import type { Surroundings } from "./find-runners-up";
import { type KeptRest, keepRests, nothingKept, type PlacedNeed } from "./kept-rests";
import type { ClusterPlan, MissingRest } from "./plan-cluster";
import {
  cheapestSaving,
  mostOfPairs,
  mostSaved,
  neededSaving,
  type PlanSetting,
  planClusters,
  planForLength,
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

/** What is left of a rest by the sets of one cluster. */
interface LeftRests {
  readonly at: number;
  readonly asked: number;
  readonly rests: readonly MissingRest[];
  /** The most that all other clusters save. */
  readonly others: number;
}

/** What the plans are made of when one need asks for another amount. */
class Relaxation {
  private readonly silences: ReadonlySet<number>;
  private readonly touched: readonly number[];

  constructor(
    private readonly setting: PlanSetting,
    private readonly need: PlacedNeed,
  ) {
    this.silences = new Set(need.silences.map(({ silence }) => silence));
    this.touched = setting.clusters.flatMap(({ silences }, at) =>
      [...this.silences].some((silence) => silences.has(silence)) ? [at] : [],
    );
  }

  private replan(plan: ClusterPlan, amount: KeptRest) {
    const kept = keepRests(withAmount(this.setting.placed, this.need, amount));
    return plan.withRests(this.silences, kept);
  }

  private mostOfOthers(plans: readonly ClusterPlan[]): number {
    return mostSaved(choicesOf(plans.filter((_, at) => !this.touched.includes(at))));
  }

  /** The most that can be saved then; null when the amount cannot be left at all. */
  mostSaved(plans: readonly ClusterPlan[], amount: KeptRest): number | null {
    let sum = this.mostOfOthers(plans);
    for (const at of this.touched) {
      const most = mostOfPairs(this.replan(plans[at] as ClusterPlan, amount));
      if (most === null) return null;
      sum += most;
    }
    return sum;
  }

  /**
   * All sets by how much of the rest they leave, from one reading of the page.
   *
   * @returns null where a rest is played twice, or goes over a jump.
   */
  byLeft(plans: readonly ClusterPlan[]): LeftRests | null {
    const [[at, ...others], [rest, ...again]] = [this.touched, this.need.silences];
    if (at === undefined || others.length > 0 || !rest || again.length > 0) return null;
    const unit = this.need.amount.milliseconds > 0 ? "milliseconds" : "barParts";
    const watched = {
      silence: rest.silence,
      unit,
      asked: Math.min(this.need.amount[unit], rest[unit]),
    } as const;
    const kept = keepRests(withAmount(this.setting.placed, this.need, nothingKept));
    const rests = watched.asked > 0 ? plans[at]?.byMissing(watched, kept) : null;
    return rests ? { at, asked: watched.asked, rests, others: this.mostOfOthers(plans) } : null;
  }

  cheapest(
    plans: readonly ClusterPlan[],
    around: Surroundings,
    amount: KeptRest,
    needed: number,
  ): Choice | null {
    const [only, ...others] = this.touched;
    const [plan] = only === undefined ? [] : plans.slice(only);
    if (only !== undefined && plan && others.length === 0) {
      return around.cheapestWith(only, this.replan(plan, amount), needed);
    }
    const choices = plans.map((one, at) =>
      this.touched.includes(at) ? addChoices(this.replan(one, amount)) : one.choices,
    );
    return cheapestSaving(combineChoices(choices), needed);
  }
}

/** What a plan that does not fit was made of. */
interface FailedPlan {
  readonly setting: PlanSetting;
  readonly plans: readonly ClusterPlan[];
  readonly around: Surroundings;
  /** The same plans where costs do not matter. */
  readonly forLength: () => readonly ClusterPlan[];
}

/** The most that can be left of a rest, in whole units, and the cheapest set that leaves it. */
interface LeftBySet {
  readonly left: number;
  readonly set: Choice | null;
}

/** By one reading of the page that tells all lengths of the rest. */
function findLeft({ setting, around }: FailedPlan, { at, asked, rests, others }: LeftRests, unit: number) {
  const needed = neededSaving(setting);
  const saves = ({ pair }: MissingRest) => (mostOfPairs([pair]) ?? 0) + others >= needed;
  const least = rests.filter(saves).reduce((sum, { missing }) => Math.min(sum, missing), asked + 1);
  if (least > asked) return null;
  const left = Math.floor((asked - least) / unit);
  const pairs = rests.filter(({ missing }) => missing <= asked - left * unit).map(({ pair }) => pair);
  return { left, set: around.cheapestWith(at, pairs, needed) };
}

function relaxNeed(failed: FailedPlan, placed: PlacedNeed): RestInTheWay | null {
  const { setting, plans, around, forLength } = failed;
  const isInSeconds = "seconds" in placed.need.needs;
  const amount = (whole: number): KeptRest =>
    isInSeconds ? { milliseconds: whole, barParts: 0 } : { milliseconds: 0, barParts: whole * partsOfABar };
  const relaxation = new Relaxation(setting, placed);
  const needed = neededSaving(setting);
  const asked = "seconds" in placed.need.needs ? placed.need.needs.seconds : placed.need.needs.bars;
  const tryAmounts = (): LeftBySet | null => {
    const most = isInSeconds ? placed.amount.milliseconds : Math.ceil(asked);
    const works = (whole: number) => (relaxation.mostSaved(forLength(), amount(whole)) ?? -1) >= needed;
    const left = greatest(most, works);
    return left === null ? null : { left, set: relaxation.cheapest(plans, around, amount(left), needed) };
  };
  const byLeft = relaxation.byLeft(plans);
  const found = byLeft ? findLeft(failed, byLeft, isInSeconds ? 1 : partsOfABar) : tryAmounts();
  if (!found?.set) return null;
  const { left, set } = found;
  return {
    needId: placed.need.id,
    unit: isInSeconds ? "seconds" : "bars",
    left: isInSeconds ? left / 1000 : left,
    shortBy: isInSeconds ? (placed.amount.milliseconds - left) / 1000 : asked - left,
    set: describeSet(setting, set),
  };
}

const choicesOf = (plans: readonly ClusterPlan[]) => plans.map(({ choices }) => choices);

function relaxKeep(setting: PlanSetting): Obstacle["keep"] {
  const { score, map, candidates, options } = setting;
  return (options.keep ?? []).flatMap((span) => {
    const keep = (options.keep ?? []).filter((other) => other !== span);
    const other = preparePlan(score, map, candidates, { ...options, keep });
    if (mostSaved(choicesOf(planForLength(other))) < neededSaving(other)) return [];
    const set = cheapestSaving(combineChoices(choicesOf(planClusters(other))), neededSaving(other));
    return set ? [{ why: span.why, set: describeSet(other, set) }] : [];
  });
}

/**
 * What stands in the way when no set fits: needs and kept spans are let go one at a time.
 *
 * @param plans of all clusters with all needs kept.
 */
export function findObstacle(
  setting: PlanSetting,
  plans: readonly ClusterPlan[],
  around: Surroundings,
): Obstacle {
  const needed = neededSaving(setting);
  const free = mostSaved(choicesOf(planForLength(setting, [])));
  let known: readonly ClusterPlan[] | null = null;
  const forLength = () => {
    known ??= planForLength(setting);
    return known;
  };
  const failed = { setting, plans, around, forLength };
  const rests = setting.placed.flatMap((placed) => {
    const relaxed = placed.silences.length > 0 && free >= needed ? relaxNeed(failed, placed) : null;
    return relaxed ? [relaxed] : [];
  });
  // Seconds and bars do not compare: what is missing is ranked as a share of what is needed.
  const share = ({ left, shortBy }: RestInTheWay) => shortBy / (left + shortBy);
  const isMixed = new Set(rests.map(({ unit }) => unit)).size > 1;
  rests.sort((a, b) => (isMixed ? share(a) - share(b) : a.shortBy - b.shortBy));
  return {
    rests,
    keep: relaxKeep(setting),
    missesBySeconds: seconds((needed - mostSaved(choicesOf(plans))) / 1000),
    missesWithoutNeedsBySeconds: seconds((needed - free) / 1000),
  };
}
