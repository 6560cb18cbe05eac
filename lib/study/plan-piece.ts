import type { JoinGrade } from "@/lib/cuts/join/join-row";
import { nameCut } from "@/lib/cuts/name-cut";
import { findOverlap } from "@/lib/cuts/overlapping-cuts";
import type { CutCandidate } from "@/lib/cuts/plan/cut-candidate";
import { findPlanCandidates, foundCutWeights } from "@/lib/cuts/plan/find-plan-candidates";
import { type CutPlan, planCuts } from "@/lib/cuts/plan/plan-cuts";
import type { PlanOptions } from "@/lib/cuts/plan/plan-options";
import type { CutFilters } from "@/lib/cuts/search/cut-filters";
import type { FoundCut } from "@/lib/cuts/search/found-cut";
import { findClockStretches } from "@/lib/score/clock-stretches";
import { type CutSpan, isSameSpan } from "@/lib/score/cut-span";
import type { Steps } from "@/lib/score/steps";
import { readTimeline, type Timeline } from "@/lib/score/timeline";
import type { Study } from "./open-study";

/** What a plan is made for. Only other filters or other agreed cuts have the piece searched again. */
export interface PlanQuestion {
  /** Without the agreed cuts: those stand beside it. */
  readonly options: Omit<PlanOptions, "agreed">;
  /** Cuts that both have agreed: they stay, and the plan goes on from them. */
  readonly agreed: readonly CutSpan[];
  /** What the cuts of every tutti have to keep. */
  readonly filters: CutFilters;
  /** Whether a join may be rough. */
  readonly allowsRough: boolean;
  /** Cuts that the players do not want. */
  readonly without: readonly CutSpan[];
}

/** A candidate of a plan as the screen shows it. */
export interface PlannedCandidate extends CutCandidate {
  /** "bars 85–96". */
  readonly name: string;
  readonly grade: JoinGrade;
  /** Every stretch of the piece as written that falls out, in seconds; `to` exclusive. */
  readonly gaps: readonly { readonly from: number; readonly to: number }[];
}

export interface PiecePlan {
  readonly candidates: readonly PlannedCandidate[];
  readonly plan: CutPlan;
}

/** Tuttis shorter than this are played: nothing is won by cutting them. */
export const shortestTuttiBars = 4;
/** So many searches of one piece are kept: a wish that is taken back is answered at once. */
const mostKept = 6;

type Search = Pick<PlanQuestion, "agreed" | "filters">;

/** What was found in the piece of a study, by what was searched for; the latest last. */
const foundIn = new WeakMap<Study, Map<string, readonly PlannedCandidate[]>>();

/**
 * Finds the cuts that each tutti offers, then the cheapest set that meets the limit and keeps every needed rest. Says
 * after every step how far the search has come; what was searched for before is answered at once.
 *
 * @throws RangeError if the limit, a need, a filter or a weight makes no sense.
 */
export function* planPiece(study: Study, question: PlanQuestion): Steps<PiecePlan> {
  const { agreed, without, allowsRough, options } = question;
  const all = yield* candidatesOf(study, question);
  const candidates = all.filter(
    (cut) => (allowsRough || cut.grade !== "rough") && !without.some((unwanted) => isSameSpan(unwanted, cut)),
  );
  const weights = { ...foundCutWeights, ...options.weights };
  return { candidates, plan: planCuts(study.score, study.map, candidates, { ...options, weights, agreed }) };
}

function* candidatesOf(study: Study, { agreed, filters }: Search): Steps<readonly PlannedCandidate[]> {
  const kept = foundIn.get(study) ?? new Map<string, readonly PlannedCandidate[]>();
  foundIn.set(study, kept);
  const key = JSON.stringify({ agreed, filters });
  const known = kept.get(key);
  if (known) {
    kept.delete(key);
    kept.set(key, known);
    return known;
  }
  const found = yield* searchTuttis(study, filters);
  const timeline = readTimeline(study.score, study.order, study.map);
  const candidates = found
    .filter((cut) => findOverlap(agreed, cut) === null)
    .map((cut) => showCandidate(study, timeline, cut));
  kept.set(key, candidates);
  const [oldest] = kept.keys();
  if (kept.size > mostKept && oldest !== undefined) kept.delete(oldest);
  return candidates;
}

function* searchTuttis(study: Study, filters: CutFilters): Steps<FoundCut[]> {
  const spans = study.tuttis
    .filter(({ barCount }) => barCount >= shortestTuttiBars)
    .map(({ from, to, place }) => ({ from, to, isOpening: place === "opening" }));
  return yield* findPlanCandidates(() => study.heard(), spans, { filters, allowsRough: true });
}

/** Without the evidence of the join, which is asked for when somebody opens the cut. */
function showCandidate(
  { score, order }: Study,
  timeline: Timeline,
  { from, to, cost, reasons, grade }: FoundCut,
): PlannedCandidate {
  const gaps = findClockStretches({ score, order, timeline }, { from, to });
  return { from, to, cost, reasons, grade, gaps, name: nameCut(score, { from, to }) };
}
