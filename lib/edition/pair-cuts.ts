import { comparePositions } from "@/lib/score/position";
import { type CutTerms, toCutSpan } from "./cut-terms";
import { hashTerms } from "./hash-terms";

/** A cut in the one and in the other edition; null where the edition has none of it. Never null twice. */
export interface CutPair {
  readonly before: CutTerms | null;
  readonly after: CutTerms | null;
}

/**
 * The cuts that are not the same in two editions, in the order of the page. A cut moved only when it is plain which
 * became which: two that became one are gone, and the one is new.
 */
export function pairCuts(a: readonly CutTerms[], b: readonly CutTerms[]): CutPair[] {
  const gone = without(a, b);
  const fresh = without(b, a);
  const moved = fresh.flatMap((after) => {
    const [before, ...others] = gone.filter((cut) => sharesMusic(cut, after));
    const isPlain =
      others.length === 0 && before && fresh.filter((cut) => sharesMusic(before, cut)).length === 1;
    return isPlain ? [{ before, after }] : [];
  });
  const pairs: CutPair[] = [
    ...moved,
    ...gone.filter((cut) => moved.every(({ before }) => before !== cut)).map(isGone),
    ...fresh.filter((cut) => moved.every(({ after }) => after !== cut)).map(isFresh),
  ];
  return pairs.toSorted(byPlace);
}

/** Whether some of the music is left out by both; cuts that only touch share none. */
export function sharesMusic(a: Pick<CutTerms, "from" | "to">, b: Pick<CutTerms, "from" | "to">): boolean {
  const [one, other] = [toCutSpan(a), toCutSpan(b)];
  return comparePositions(one.from, other.to) < 0 && comparePositions(other.from, one.to) < 0;
}

export function isSameCut(a: CutTerms, b: CutTerms): boolean {
  return hashTerms(a) === hashTerms(b);
}

const isGone = (before: CutTerms): CutPair => ({ before, after: null });
const isFresh = (after: CutTerms): CutPair => ({ before: null, after });

function without(cuts: readonly CutTerms[], taken: readonly CutTerms[]): CutTerms[] {
  const hashes = new Set(taken.map(hashTerms));
  return cuts.filter((cut) => !hashes.has(hashTerms(cut)));
}

function byPlace(left: CutPair, right: CutPair): number {
  const [a, b] = [left.after ?? left.before, right.after ?? right.before];
  return a && b ? comparePositions(toCutSpan(a).from, toCutSpan(b).from) : 0;
}
