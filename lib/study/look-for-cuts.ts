import { type CheckedNeed, checkRestNeeds } from "@/lib/breath/check-rest-needs";
import { nameCut } from "@/lib/cuts/name-cut";
import { findOverlap } from "@/lib/cuts/overlapping-cuts";
import type { CutFilters } from "@/lib/cuts/search/cut-filters";
import { searchCuts } from "@/lib/cuts/search/find-cuts";
import { findStarts } from "@/lib/cuts/search/find-starts";
import type { FoundCut } from "@/lib/cuts/search/found-cut";
import { type CutWeight, weighCut } from "@/lib/cuts/weigh-cut";
import type { RestNeed } from "@/lib/edition/rest-need";
import type { CutSpan } from "@/lib/score/cut-span";
import type { Steps } from "@/lib/score/steps";
import type { Study } from "./open-study";

/** Where cuts are looked for, and what is to stay. */
export interface CutSearch {
  readonly span: CutSpan;
  /** `starts`: only cuts from the very beginning, that is, places to start at. */
  readonly look: "anywhere" | "starts";
  readonly filters: CutFilters;
  readonly agreed: readonly CutSpan[];
  readonly needs: readonly RestNeed[];
}

/** A found cut as a player weighs it. */
export interface OfferedCut extends FoundCut {
  /** "bars 85–96". */
  readonly name: string;
  readonly weight: CutWeight;
  /** Needs that would be short of rest with it and are not without it. */
  readonly robs: readonly CheckedNeed[];
}

/** Needs that one more cut leaves short. @param without it, in the order of `needs`. */
function findRobbed(
  { score, map }: Study,
  { agreed, needs }: Pick<CutSearch, "agreed" | "needs">,
  without: readonly CheckedNeed[],
  cut: CutSpan,
): CheckedNeed[] {
  const withIt = checkRestNeeds(score, map, [...agreed, cut], needs);
  return withIt.filter(({ verdict }, index) => verdict === "short" && without[index]?.verdict !== "short");
}

/**
 * Looks for cuts, the best first, and says after every step how far it has come. Those that have bars of an agreed cut
 * are left out.
 *
 * @throws RangeError if the span lies outside the piece or a filter is out of range.
 */
export function* lookForCuts(study: Study, search: CutSearch): Steps<OfferedCut[]> {
  const { span, filters, agreed, needs } = search;
  const heard = study.heard();
  const found =
    search.look === "starts" ? findStarts(heard, span, filters) : yield* searchCuts(heard, span, filters);
  const free = found.filter((cut) => findOverlap(agreed, cut) === null);
  const without = checkRestNeeds(study.score, study.map, agreed, needs);
  return free.map((cut) => ({
    ...cut,
    name: nameCut(study.score, cut),
    weight: weighCut(study.score, study.map, agreed, cut),
    robs: findRobbed(study, search, without, cut),
  }));
}
