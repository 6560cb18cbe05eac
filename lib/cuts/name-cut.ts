import type { CutSpan } from "@/lib/score/cut-span";
import { isEqualQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { namePosition } from "./name-position";

/** Index of the last bar that is left out wholly, for a cut from bar line to bar line; null for any other. */
function lastWholeBar(score: Score, { from, to }: CutSpan): number | null {
  if (from.offset.num !== 0) return null;
  if (to.offset.num === 0) return to.barIndex - 1;
  const bar = score.bars[to.barIndex];
  return bar && isEqualQuarters(to.offset, bar.length) ? to.barIndex : null;
}

/**
 * What is left out, by printed bar labels: "bar 85", "bars 85–96", or, when an end lies inside a bar, the first beat
 * left out and the first beat played again: "bar 85 beat 3 to bar 97 beat 1".
 *
 * @throws RangeError if the cut lies outside the piece.
 */
export function nameCut(score: Score, cut: CutSpan): string {
  const from = namePosition(score, cut.from, true);
  const to = namePosition(score, cut.to, true);
  const last = lastWholeBar(score, cut);
  const label = (index: number) => score.bars[index]?.label ?? "";
  if (last === null || last < cut.from.barIndex) return `${from} to ${to}`;
  const first = label(cut.from.barIndex);
  return last === cut.from.barIndex ? `bar ${first}` : `bars ${first}–${label(last)}`;
}
