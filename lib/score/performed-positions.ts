import type { PerformedBar, PerformedOrder } from "./performed-order";
import type { Position } from "./position";
import {
  addQuarters,
  compareQuarters,
  noQuarters,
  type Quarters,
  subtractQuarters,
  writeQuarters,
} from "./quarters";
import type { Score } from "./score";

function lastStartingBy(bars: readonly PerformedBar[], performed: Quarters): PerformedBar | null {
  let low = 0;
  let high = bars.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const bar = bars[middle];
    if (bar && compareQuarters(bar.start, performed) <= 0) low = middle + 1;
    else high = middle;
  }
  return bars[low - 1] ?? null;
}

function checkInside(order: PerformedOrder, performed: Quarters): void {
  if (compareQuarters(performed, noQuarters) >= 0 && compareQuarters(performed, order.length) <= 0) return;
  const length = writeQuarters(order.length);
  throw new RangeError(`Performed time ${writeQuarters(performed)} lies outside ${length} quarters`);
}

/**
 * The place on the page that sounds from a performed time on. Between two bars it is the start of the bar that is
 * played next, wherever that stands; at the very end the end of the bar played last.
 *
 * @throws RangeError outside the order, or if nothing is played.
 */
export function positionPlayedFrom(order: PerformedOrder, performed: Quarters): Position {
  checkInside(order, performed);
  const bar = lastStartingBy(order.bars, performed);
  if (!bar) throw new RangeError("Nothing is played");
  return { barIndex: bar.barIndex, offset: addQuarters(bar.from, subtractQuarters(performed, bar.start)) };
}

/**
 * The place on the page up to which was played at a performed time, exclusive. Between two bars it is the end of the
 * bar just played, written as the start of the bar printed after it.
 *
 * @throws RangeError outside the order, or if nothing is played.
 */
export function positionPlayedUpTo(score: Score, order: PerformedOrder, performed: Quarters): Position {
  checkInside(order, performed);
  const before = lastStartingBefore(order.bars, performed);
  if (!before) return positionPlayedFrom(order, performed);
  const offset = addQuarters(before.from, subtractQuarters(performed, before.start));
  const length = score.bars[before.barIndex]?.length ?? offset;
  const hasNext = before.barIndex + 1 < score.bars.length;
  if (hasNext && compareQuarters(offset, length) >= 0)
    return { barIndex: before.barIndex + 1, offset: noQuarters };
  return { barIndex: before.barIndex, offset };
}

function lastStartingBefore(bars: readonly PerformedBar[], performed: Quarters): PerformedBar | null {
  let low = 0;
  let high = bars.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const bar = bars[middle];
    if (bar && compareQuarters(bar.start, performed) < 0) low = middle + 1;
    else high = middle;
  }
  return bars[low - 1] ?? null;
}
