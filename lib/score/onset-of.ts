import type { Position } from "./position";
import { addQuarters, compareQuarters, noQuarters, type Quarters, writeQuarters } from "./quarters";
import type { Score } from "./score";

/**
 * Written time of a position, from the start of the piece. The end of a bar and the start of the next are
 * the same time; the end of the piece is the end of its last bar.
 *
 * @throws RangeError if the piece has no such bar, or the offset lies before or behind the bar.
 */
export function onsetOf(score: Score, position: Position): Quarters {
  const bar = score.bars[position.barIndex];
  if (!bar) {
    throw new RangeError(`No bar with index ${position.barIndex} in a piece of ${score.bars.length} bars`);
  }
  const { offset } = position;
  if (compareQuarters(offset, noQuarters) < 0 || compareQuarters(offset, bar.length) > 0) {
    const length = writeQuarters(bar.length);
    throw new RangeError(
      `Offset ${writeQuarters(offset)} lies outside bar index ${bar.index} of ${length} quarters`,
    );
  }
  return addQuarters(bar.start, offset);
}
