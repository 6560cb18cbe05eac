import type { Bar } from "./bar";
import { pieceLength } from "./piece-length";
import type { Position } from "./position";
import { compareQuarters, noQuarters, type Quarters, subtractQuarters, writeQuarters } from "./quarters";
import type { Score } from "./score";

/** Index of the last bar that starts at or before `onset`; bars are in order of their starts. */
function lastBarStartingBy(bars: readonly Bar[], onset: Quarters): number {
  let low = 0;
  let high = bars.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const bar = bars[middle];
    if (bar && compareQuarters(bar.start, onset) <= 0) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/**
 * The position of a written time. On a bar line it is the start of the bar that follows; the end of the
 * piece is the end of the last bar.
 *
 * @throws RangeError if `onset` lies before the start or behind the end of the piece, or the piece has no bars.
 */
export function positionAt(score: Score, onset: Quarters): Position {
  const isInside = compareQuarters(onset, noQuarters) >= 0 && compareQuarters(onset, pieceLength(score)) <= 0;
  const barIndex = lastBarStartingBy(score.bars, onset);
  const bar = score.bars[barIndex];
  if (!isInside || !bar) throw new RangeError(`No bar at written time ${writeQuarters(onset)}`);
  return { barIndex, offset: subtractQuarters(onset, bar.start) };
}
