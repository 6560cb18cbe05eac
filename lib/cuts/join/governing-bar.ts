import type { Position } from "@/lib/score/position";
import { compareQuarters, scaleQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/**
 * The bar that a place belongs to when phrases and large bars are counted: an upbeat goes with the bar it leads to, so
 * that places in the second half of a bar belong to the next. May be the number of bars, behind the last.
 */
export function governingBar(score: Score, { barIndex, offset }: Position): number {
  const bar = score.bars[barIndex];
  if (!bar) return barIndex;
  const isLate = bar.isPickup || compareQuarters(offset, scaleQuarters(bar.metreLength, 1, 2)) >= 0;
  return isLate && (offset.num > 0 || bar.isPickup) ? barIndex + 1 : barIndex;
}
