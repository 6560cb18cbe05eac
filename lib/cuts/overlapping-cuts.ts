import type { CutSpan } from "@/lib/score/cut-span";
import { comparePositions } from "@/lib/score/position";

/**
 * The first of `cuts`, as listed, that shares music with `cut`; null when none does. Cuts that only touch do not
 * overlap, and an empty cut overlaps nothing. A place on a bar line must be written as the start of the next bar, as
 * `positionAt` does.
 */
export function findOverlap<Cut extends CutSpan>(cuts: readonly Cut[], cut: CutSpan): Cut | null {
  const isEmpty = (span: CutSpan) => comparePositions(span.from, span.to) >= 0;
  if (isEmpty(cut)) return null;
  const overlaps = (other: Cut) =>
    !isEmpty(other) && comparePositions(other.from, cut.to) < 0 && comparePositions(cut.from, other.to) < 0;
  return cuts.find(overlaps) ?? null;
}
