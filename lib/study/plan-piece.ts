import { nameCut } from "@/lib/cuts/name-cut";
import { findOverlap } from "@/lib/cuts/overlapping-cuts";
import { type CutPlan, planCuts } from "@/lib/cuts/plan/plan-cuts";
import type { PlanOptions } from "@/lib/cuts/plan/plan-options";
import type { CutFilters } from "@/lib/cuts/search/cut-filters";
import { searchCuts } from "@/lib/cuts/search/find-cuts";
import { findStarts } from "@/lib/cuts/search/find-starts";
import type { FoundCut, SearchProgress } from "@/lib/cuts/search/found-cut";
import type { CutSpan } from "@/lib/score/cut-span";
import type { Study } from "./open-study";

/** What a plan is made for. */
export interface PlanQuestion {
  readonly options: PlanOptions;
  /** Cuts that both have agreed: they stay, and the plan goes on from them. */
  readonly agreed: readonly CutSpan[];
  /** What the cuts of every tutti have to keep. */
  readonly filters: CutFilters;
  /** Whether a join may be rough. */
  readonly allowsRough: boolean;
}

/** A candidate of a plan, with its name. */
export interface PlannedCandidate extends FoundCut {
  /** "bars 85–96". */
  readonly name: string;
}

export interface PiecePlan {
  readonly candidates: readonly PlannedCandidate[];
  readonly plan: CutPlan;
}

/** Tuttis shorter than this are played: nothing is won by cutting them. */
const shortestTuttiBars = 4;
/** So many cuts of each tutti are weighed against each other. */
const candidatesPerTutti = 24;

/**
 * Finds the cuts that each tutti offers, then the cheapest set that meets the limit and keeps every needed rest. Says
 * after every step how far the search has come.
 *
 * @throws RangeError if the limit, a need, a filter or a weight makes no sense.
 */
export function* planPiece(study: Study, question: PlanQuestion): Generator<SearchProgress, PiecePlan> {
  const { score, map } = study;
  const { agreed, filters, allowsRough } = question;
  const heard = study.heard();
  const spans = study.tuttis.filter(({ barCount }) => barCount >= shortestTuttiBars);
  const found: FoundCut[] = [];
  for (const [index, tutti] of spans.entries()) {
    const wanted: CutFilters = { resolution: "bars", limit: candidatesPerTutti, ...filters };
    if (tutti.place === "opening") found.push(...findStarts(heard, tutti, wanted));
    const search = searchCuts(heard, tutti, wanted);
    for (let step = search.next(); ; step = search.next()) {
      if (step.done) {
        found.push(...step.value);
        break;
      }
      yield {
        done: 1000 * index + Math.round((1000 * step.value.done) / step.value.total),
        total: 1000 * spans.length,
      };
    }
  }
  const candidates = found
    .filter((cut) => (allowsRough || cut.grade !== "rough") && findOverlap(agreed, cut) === null)
    .map((cut) => ({ ...cut, name: nameCut(score, cut) }));
  return { candidates, plan: planCuts(score, map, candidates, question.options) };
}
