import { addChoices, type Choice, type Choices, listCuts, noCuts } from "./combine-choices";
import { keepRests } from "./kept-rests";
import { planCluster } from "./plan-cluster";
import { neededSaving, type PlanSetting } from "./plan-setting";

const sum = (a: Choice, b: Choice): Choice => ({
  savedMilliseconds: a.savedMilliseconds + b.savedMilliseconds,
  cost: a.cost + b.cost,
  count: a.count + b.count,
  cuts: [a.cuts, b.cuts],
});

/** The cheapest sum of one choice from each list that saves enough. Both run from the least saved and cheapest up. */
function cheapestPair(left: Choices, right: Choices, needed: number): Choice | null {
  let best: readonly [Choice, Choice] | null = null;
  let at = right.length - 1;
  for (const choice of left) {
    // The more is saved on the left, the less is needed on the right.
    while (at > 0 && choice.savedMilliseconds + (right[at - 1] as Choice).savedMilliseconds >= needed)
      at -= 1;
    const other = right[at];
    if (!other || choice.savedMilliseconds + other.savedMilliseconds < needed) continue;
    if (!best || choice.cost + other.cost < best[0].cost + best[1].cost) best = [choice, other];
  }
  return best && sum(...best);
}

/**
 * Other sets that fit: for each cut of the best set the cheapest set without it, which answers "and if we do not want this
 * one?". The cheapest of them is the second best set of all, but for sets that only add cuts to the best.
 *
 * @param choices of all clusters, from which `best` was made.
 */
export function findRunnersUp(
  setting: PlanSetting,
  choices: readonly Choices[],
  best: Choice,
  most: number,
): Choice[] {
  if (most === 0) return [];
  const kept = keepRests(setting.placed);
  const needed = neededSaving(setting);
  const chosen = new Set(listCuts(best));
  const found = new Map<string, Choice>();
  const after: Choices[] = choices.map(() => [noCuts]);
  for (let at = choices.length - 2; at >= 0; at -= 1) {
    after[at] = addChoices([[after[at + 1] ?? [noCuts], choices[at + 1] ?? [noCuts]]]);
  }
  let before: Choices = [noCuts];
  setting.clusters.forEach((cluster, at) => {
    for (const unwanted of cluster.cuts.filter(({ index }) => chosen.has(index))) {
      const rest = { ...cluster, cuts: cluster.cuts.filter((cut) => cut !== unwanted) };
      const others = addChoices([[before, planCluster(setting.ground, rest, kept)]]);
      const set = cheapestPair(others, after[at] ?? [], needed);
      if (set) found.set(listCuts(set).join(" "), set);
    }
    before = addChoices([[before, choices[at] ?? []]]);
  });
  return [...found.values()]
    .sort((a, b) => a.cost - b.cost || b.savedMilliseconds - a.savedMilliseconds)
    .slice(0, most);
}
