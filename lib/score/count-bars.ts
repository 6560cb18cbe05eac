import { performedBarsBetween, performedEnd } from "./performed-bars-between";
import type { PerformedBar, PerformedOrder } from "./performed-order";
import {
  addQuarters,
  compareQuarters,
  isEqualQuarters,
  noQuarters,
  type Quarters,
  subtractQuarters,
} from "./quarters";
import type { Score } from "./score";

/** Bars as musicians count them in a stretch of the performed order. */
export interface BarCount {
  readonly count: number;
  /** The performed bars that lie wholly inside, pieces and upbeats among them. */
  readonly bars: readonly PerformedBar[];
}

/**
 * A bar of full length counts 1, and so does the last bar, however much of it the upbeat took; a piece of a bar, an
 * upbeat or another short bar counts as the share of its metre.
 */
function shareOf(
  score: Score,
  performed: PerformedBar,
): { whole: number; share: { num: Quarters; den: Quarters } | null } {
  const bar = score.bars[performed.barIndex];
  if (!bar) return { whole: 0, share: null };
  const length = subtractQuarters(performed.to, performed.from);
  const isLast = bar.index === score.bars.length - 1 && bar.index > 0;
  const isFull = isLast || compareQuarters(length, bar.metreLength) >= 0;
  const isWhole = isEqualQuarters(length, bar.length) && isFull;
  if (isWhole) return { whole: length.num > 0 ? 1 : 0, share: null };
  return { whole: 0, share: { num: length, den: bar.metreLength } };
}

/**
 * How many bars a player counts between two performed times: each bar that lies wholly inside. Pieces of bars, upbeats
 * and the halves of a bar that a repeat sign divides count together, a bar for as many beats as the metre asks for;
 * what is left over does not count, nor does a bar that is only touched.
 *
 * Source: common practice ("violin silent in bars 1–67" is 67 bars of rest, whatever the upbeat).
 */
export function countBars(score: Score, order: PerformedOrder, from: Quarters, to: Quarters): BarCount {
  const bars = performedBarsBetween(order, from, to).filter((bar) => {
    return compareQuarters(bar.start, from) >= 0 && compareQuarters(performedEnd(bar), to) <= 0;
  });
  let count = 0;
  let gathered = noQuarters;
  for (const performed of bars) {
    const { whole, share } = shareOf(score, performed);
    count += whole;
    if (!share) continue;
    gathered = addQuarters(gathered, share.num);
    if (compareQuarters(gathered, share.den) >= 0 && share.den.num > 0) {
      count += 1;
      gathered = subtractQuarters(gathered, share.den);
    }
  }
  return { count, bars };
}
