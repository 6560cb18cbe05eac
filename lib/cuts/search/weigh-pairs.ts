import { type JoinSigns, weighPlaces } from "../join/join-signs";
import type { Heard } from "../join/listen";
import { tooRough } from "../join/rows/smoothness-row";
import type { CandidatePlace, CandidatePlaces } from "./candidate-places";
import type { CutFilters } from "./cut-filters";
import type { SearchProgress } from "./found-cut";
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
  const isVetoed = signs.smoothness < tooRough && signs.precedent === 0;
  const inside = from.isBarLine ? 0 : insideBarCost;
  const short = shortCutCost(to.place.bar - from.place.bar);
  return rounded(1 - worthOf(signs) + inside + short + (isVetoed ? gradeCosts.rough : 0));
}

function bestLandings(
  heard: Heard,
  from: CandidatePlace,
  tos: readonly CandidatePlace[],
  isWanted: (from: CandidatePlace, to: CandidatePlace) => boolean,
): WeighedPair[] {
  const pairs = tos
    .filter((to) => isWanted(from, to))
    .map((to) => {
      const signs = weighPlaces(heard, from.place, to.place);
      return { from, to, signs, cost: costOf(from, to, signs) };
    });
  return pairs.sort(comparePairs).slice(0, bestOfOnePlace);
}

/** Fewer bars are not worth a mark, unless the players ask for seconds. */
export const leastBars = 2;

/** Whether a pair saves what is asked for; by a thousandth of a second no one fails. */
function savesEnough(filters: CutFilters, from: CandidatePlace, to: CandidatePlace): boolean {
  const { leastSeconds, mostSeconds } = filters;
  const saved = to.seconds - from.seconds;
  const isLong =
    leastSeconds === undefined ? to.place.bar - from.place.bar >= leastBars : saved >= leastSeconds - 1e-3;
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
): Generator<SearchProgress, WeighedPair[]> {
  const landings = new Map<string, CandidatePlace[]>();
  for (const to of tos) landings.set(to.phase, [...(landings.get(to.phase) ?? []), to]);
  const ordered = [
    ...froms.filter(({ isBarLine }) => isBarLine),
    ...froms.filter(({ isBarLine }) => !isBarLine),
  ];
  const isWanted = (from: CandidatePlace, to: CandidatePlace) => savesEnough(filters, from, to);
  const pairs: WeighedPair[] = [];
  for (const [done, from] of ordered.entries()) {
    pairs.push(...bestLandings(heard, from, landings.get(from.phase) ?? [], isWanted));
    yield { done: done + 1, total: ordered.length };
  }
  return pairs.sort(comparePairs);
}
