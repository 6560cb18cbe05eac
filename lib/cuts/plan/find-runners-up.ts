import {
  addChoices,
  addTwo,
  type Choice,
  type Choices,
  listCuts,
  noCuts,
  onlyNoCuts,
} from "./combine-choices";
import type { ClusterPlan } from "./plan-cluster";
import { neededSaving, type PlanSetting } from "./plan-setting";

/** The cheaper set; of two that cost the same the one that saves more, or has fewer cuts. */
export function isBetter(a: Choice, b: Choice | null): boolean {
  if (!b || a.cost !== b.cost) return !b || a.cost < b.cost;
  return (
    a.savedMilliseconds > b.savedMilliseconds ||
    (a.savedMilliseconds === b.savedMilliseconds && a.count < b.count)
  );
}

/** The best sum of one choice from each list that saves enough. Both run from the least saved and cheapest up. */
function cheapestPair(left: Choices, right: Choices, needed: number, plus: Choice): Choice | null {
  let best: Choice | null = null;
  let at = right.length - 1;
  const least = needed - plus.savedMilliseconds;
  for (const choice of left) {
    // The more is saved on the left, the less is needed on the right.
    while (at > 0 && choice.savedMilliseconds + (right[at - 1] as Choice).savedMilliseconds >= least) at -= 1;
    const other = right[at];
    if (!other || choice.savedMilliseconds + other.savedMilliseconds < least) continue;
    if (best && choice.cost + other.cost + plus.cost > best.cost) continue;
    const sum = addTwo(plus, addTwo(choice, other));
    if (isBetter(sum, best)) best = sum;
  }
  return best;
}

/** What can be chosen before and after each cluster. */
export class Surroundings {
  private readonly before: Choices[] = [onlyNoCuts];
  private readonly after: Choices[];

  constructor(private readonly choices: readonly Choices[]) {
    for (const own of choices) this.before.push(addChoices([[this.before.at(-1) ?? [], own]]));
    this.after = choices.map(() => onlyNoCuts);
    for (let at = choices.length - 2; at >= 0; at -= 1) {
      this.after[at] = addChoices([[this.after[at + 1] ?? [], choices[at + 1] ?? []]]);
    }
  }

  /** The unbeaten sets of the whole piece. */
  get front(): Choices {
    return this.before.at(-1) ?? onlyNoCuts;
  }

  /** The cheapest set that saves enough when one cluster has other choices; null when there is none. */
  cheapestWith(
    cluster: number,
    pairs: readonly (readonly [Choices, Choices])[],
    needed: number,
  ): Choice | null {
    const [before, after] = [this.before[cluster] ?? onlyNoCuts, this.after[cluster] ?? onlyNoCuts];
    const isAlone = this.choices.length === 1;
    const found = isAlone
      ? pairs.map(([left, right]) => cheapestPair(left, right, needed, noCuts))
      : addChoices(pairs).map((own) => cheapestPair(before, after, needed, own));
    return found.reduce<Choice | null>((best, set) => (set && isBetter(set, best) ? set : best), null);
  }
}

/**
 * Other sets that fit: for each cut of the best set the cheapest set without it, which answers "and if we do not want this
 * one?". The cheapest of them is the second best set of all, but for sets that only add cuts to the best.
 *
 * @param surroundings of the plans, from which `best` was made.
 */
export function findRunnersUp(
  setting: PlanSetting,
  plans: readonly ClusterPlan[],
  surroundings: Surroundings,
  best: Choice,
  most: number,
): Choice[] {
  if (most === 0) return [];
  const needed = neededSaving(setting);
  const chosen = new Set(listCuts(best));
  const found = new Map<string, Choice>();
  plans.forEach((plan, at) => {
    for (const unwanted of plan.cluster.cuts) {
      if (unwanted.isAgreed || !chosen.has(unwanted.index)) continue;
      const set = surroundings.cheapestWith(at, plan.without(unwanted), needed);
      if (set) found.set(listCuts(set).join(" "), set);
    }
  });
  return [...found.values()]
    .sort((a, b) => a.cost - b.cost || b.savedMilliseconds - a.savedMilliseconds)
    .slice(0, most);
}
