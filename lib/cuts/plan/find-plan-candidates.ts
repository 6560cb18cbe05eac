import type { CutSpan } from "@/lib/score/cut-span";
import type { Steps } from "@/lib/score/steps";
import type { Heard } from "../join/listen";
import type { CutFilters } from "../search/cut-filters";
import { searchCuts } from "../search/find-cuts";
import { findStarts } from "../search/find-starts";
import type { FoundCut } from "../search/found-cut";
import type { PlanWeights } from "./cut-candidate";

/** Where a plan may cut. */
export interface PlanSpan extends CutSpan {
  /** Before the soloist's first entry, so that the piece may also begin later. */
  readonly isOpening: boolean;
}

export interface PlanCandidateOptions {
  /** What cuts have to keep, and where they may begin; bar lines only and 24 cuts a span unless told. */
  readonly filters?: CutFilters;
  /** Whether joins that will be heard as a break are candidates too. */
  readonly allowsRough?: boolean;
}

/** So many cuts of each span are weighed against each other: enough for every length. Source: ours. */
const candidatesPerSpan = 24;

/**
 * Weights for the costs of found cuts, where 0.15 is what a join costs that needs a touch and 1 what a rough one does: each
 * cut, however good, is one more thing that two people have to remember under pressure, a third of a touch; and a
 * minute less of the music counts a little more than that, so that of two sets with equal joins the one is taken that
 * has fewer cuts, or leaves out less.
 *
 * Source: ours, after what musicians say; the duo may change them.
 */
export const foundCutWeights: PlanWeights = { join: 1, perCut: 0.05, perSecond: 0.001 };

const stepsPerSpan = 1000;

/**
 * Gathers the cuts that spans offer, as candidates for `planCuts` with `foundCutWeights`: their cost is that of the search.
 * After each step it says how far it has come, in thousandths of the spans; who drives it may stop.
 *
 * @param hear is called after the first step: hearing a piece is the longest one.
 * @param spans usually the tuttis.
 * @returns candidates in the order of the spans, the best of each first; the same cut only once.
 * @throws RangeError if a span lies outside the piece or a filter is out of range.
 */
export function* findPlanCandidates(
  hear: () => Heard,
  spans: readonly PlanSpan[],
  { filters = {}, allowsRough = false }: PlanCandidateOptions = {},
): Steps<FoundCut[]> {
  // A tutti that is repeated is played in the same place of the page.
  const places = [...new Map(spans.map((span) => [JSON.stringify(span), span])).values()];
  const total = stepsPerSpan * places.length;
  const wanted: CutFilters = { resolution: "bars", limit: candidatesPerSpan, ...filters };
  const found: FoundCut[] = [];
  for (const [index, span] of places.entries()) {
    yield { done: stepsPerSpan * index, total };
    const heard = hear();
    if (span.isOpening) found.push(...findStarts(heard, span, wanted));
    const search = searchCuts(heard, span, wanted);
    let step = search.next();
    for (; !step.done; step = search.next()) {
      const share = step.value.total === 0 ? 1 : step.value.done / step.value.total;
      yield { done: stepsPerSpan * index + Math.round(stepsPerSpan * share), total };
    }
    found.push(...step.value);
  }
  return dropDoubles(found).filter(({ grade }) => allowsRough || grade !== "rough");
}

/** Spans may overlap, and a place to start at may be found as a cut as well. */
function dropDoubles(found: readonly FoundCut[]): FoundCut[] {
  const byName = new Map<string, FoundCut>();
  for (const cut of found) {
    const name = JSON.stringify([cut.from, cut.to]);
    const known = byName.get(name);
    if (!known || cut.cost < known.cost) byName.set(name, cut);
  }
  return [...byName.values()];
}
