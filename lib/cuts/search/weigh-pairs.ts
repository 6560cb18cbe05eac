import type { Steps } from "@/lib/score/steps";
import { type JoinSigns, weighAtBest, weighFully } from "../join/join-signs";
import type { Heard } from "../join/listen";
import { tooRough } from "../join/rows/smoothness-row";
import type { CandidatePlace, CandidatePlaces } from "./candidate-places";
import type { CutFilters } from "./cut-filters";
import { gradeCosts, insideBarCost, shortCutCost, worthOf } from "./join-worth";

/** Two places and how well they join, before anything is said about it. */
export interface WeighedPair {
  readonly from: CandidatePlace;
  readonly to: CandidatePlace;
  readonly signs: JoinSigns;
  /** Without what the grade adds. */
  readonly cost: number;
}

/** Of the landings of one place only the best are looked at further. */
const bestOfOnePlace = 12;

/** Rounded, so that sums in another order do not change the ranking. */
const rounded = (cost: number): number => Math.round(cost * 1e6) / 1e6;

function comparePairs(a: WeighedPair, b: WeighedPair): number {
  return a.cost - b.cost || a.from.seconds - b.from.seconds || a.to.seconds - b.to.seconds;
}

/** A join that is rougher than nearly all of the piece counts as rough at once, unless the piece makes it. */
function costOf(from: CandidatePlace, to: CandidatePlace, signs: JoinSigns): number {
  const isVetoed = signs.smoothness < tooRough && signs.precedent === 0 && signs.repeat === 0;
  const inside = from.isBarLine ? 0 : insideBarCost;
  const short = shortCutCost(to.seconds - from.seconds);
  return rounded(1 - worthOf(signs) + inside + short + (isVetoed ? gradeCosts.rough : 0));
}

/** Places by what a join to them costs at best, the cheapest first: costs are whole millionths, so that they sort exactly. */
function orderByCost(costs: Float64Array): Float64Array {
  return costs.map((cost, place) => Math.round(cost * 1e6) * costs.length + place).sort();
}

/**
 * The best landings of one place. What takes longest is found only for those that may be among them: once there are
 * enough that cost no more than the next one would at best, the rest cannot.
 */
function bestLandings(heard: Heard, from: CandidatePlace, tos: readonly CandidatePlace[]): WeighedPair[] {
  const atBest = tos.map((to) => weighAtBest(heard, from.place, to.place));
  const leastCosts = Float64Array.from(tos, (to, place) => costOf(from, to, atBest[place] as JoinSigns));
  const pairs: WeighedPair[] = [];
  for (const code of orderByCost(leastCosts)) {
    const place = code % tos.length;
    const last = pairs[bestOfOnePlace - 1];
    if (last && last.cost < (leastCosts[place] as number)) break;
    const to = tos[place] as CandidatePlace;
    const signs = weighFully(heard, from.place, to.place, atBest[place] as JoinSigns);
    insert(pairs, { from, to, signs, cost: costOf(from, to, signs) });
  }
  return pairs.slice(0, bestOfOnePlace);
}

/** Keeps the pairs in order. */
function insert(pairs: WeighedPair[], pair: WeighedPair): void {
  let place = pairs.length;
  while (place > 0 && comparePairs(pair, pairs[place - 1] as WeighedPair) < 0) place -= 1;
  if (place < bestOfOnePlace) pairs.splice(place, 0, pair);
  if (pairs.length > bestOfOnePlace) pairs.pop();
}

/** Fewer bars or seconds are not worth a mark, unless the players ask for seconds. Source: ours. */
export const leastBars = 2;
const leastSaved = 3;

/** Whether a pair saves what is asked for; by a thousandth of a second no one fails. */
function savesEnough(filters: CutFilters, from: CandidatePlace, to: CandidatePlace): boolean {
  const { leastSeconds, mostSeconds } = filters;
  const saved = to.seconds - from.seconds;
  const isLong =
    leastSeconds === undefined
      ? to.place.bar - from.place.bar >= leastBars && saved >= leastSaved - 1e-3
      : saved >= leastSeconds - 1e-3;
  return isLong && saved > 1e-3 && saved <= (mostSeconds ?? saved) + 1e-3;
}

/**
 * All pairs of places with equal beats, place by place; cuts from bar line to bar line first. After each place the
 * generator says how far it has come: who drives it may stop.
 */
export function* weighPairs(
  heard: Heard,
  { froms, tos }: CandidatePlaces,
  filters: CutFilters,
): Steps<WeighedPair[]> {
  const landings = new Map<string, CandidatePlace[]>();
  for (const to of tos) landings.set(to.phase, [...(landings.get(to.phase) ?? []), to]);
  const ordered = [
    ...froms.filter(({ isBarLine }) => isBarLine),
    ...froms.filter(({ isBarLine }) => !isBarLine),
  ];
  const isWanted = (from: CandidatePlace, to: CandidatePlace) => savesEnough(filters, from, to);
  const pairs: WeighedPair[] = [];
  for (const [done, from] of ordered.entries()) {
    const wanted = (landings.get(from.phase) ?? []).filter((to) => isWanted(from, to));
    pairs.push(...bestLandings(heard, from, wanted));
    yield { done: done + 1, total: ordered.length };
  }
  return pairs.sort(comparePairs);
}
