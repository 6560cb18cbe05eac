import { findPerformedBar } from "./find-performed-bar";
import type { PerformedBar, PerformedOrder } from "./performed-order";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  laterOf,
  type Quarters,
  subtractQuarters,
} from "./quarters";
import type { Score } from "./score";
import type { TempoMap } from "./tempo-segment";
import { readWrittenClock } from "./written-seconds";

/**
 * Clock time of the page in whole milliseconds, as if it were played straight through. Each place is rounded once, and
 * lengths are differences of places: two neighbouring stretches add up exactly to the stretch they form, so that sums
 * do not depend on their order.
 */
export interface MillisecondClock {
  /** @param written time from the start of the piece; behind its end the clock stands still. */
  at(written: Quarters): number;
}

export function readMilliseconds(map: TempoMap): MillisecondClock {
  const secondsAt = readWrittenClock(map);
  return { at: (written) => Math.round(1000 * secondsAt(written)) };
}

/**
 * Whatever is counted along the page (milliseconds, shares of bars), added up over a stretch of performed time.
 *
 * @param measure what has been counted from the start of the piece up to a written time.
 */
export function sumPerformed(
  score: Score,
  order: PerformedOrder,
  measure: (written: Quarters) => number,
  span: { readonly from: Quarters; readonly to: Quarters },
): number {
  let sum = 0;
  for (let at = Math.max(0, findPerformedBar(order, span.from)); at < order.bars.length; at += 1) {
    const performed = order.bars[at] as PerformedBar;
    if (compareQuarters(performed.start, span.to) >= 0) break;
    const start = score.bars[performed.barIndex]?.start;
    if (!start) continue;
    const shift = subtractQuarters(addQuarters(start, performed.from), performed.start);
    const end = addQuarters(performed.start, subtractQuarters(performed.to, performed.from));
    const [from, to] = [laterOf(span.from, performed.start), earlierOf(span.to, end)];
    if (compareQuarters(from, to) < 0)
      sum += measure(addQuarters(to, shift)) - measure(addQuarters(from, shift));
  }
  return sum;
}
