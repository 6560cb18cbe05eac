import type { Bar } from "@/lib/score/bar";
import type { Position } from "@/lib/score/position";
import {
  addQuarters,
  isEqualQuarters,
  noQuarters,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** How much of a bar's metre went by before the bar begins: an upbeat, or the second half of a divided bar. */
function missingBefore(score: Score, bar: Bar): Quarters {
  if (bar.isPickup) return subtractQuarters(bar.metreLength, bar.length);
  const before = score.bars[bar.index - 1];
  if (!bar.isIrregular || !before) return noQuarters;
  const isSecondHalf = isEqualQuarters(addQuarters(before.length, bar.length), bar.metreLength);
  return isSecondHalf ? before.length : noQuarters;
}

/**
 * Where in the metre a position lies, in quarters from the counted first beat: in an upbeat of one quarter in 4/4 it is
 * 3. The end of a full bar is 0 again.
 */
export function barPhase(score: Score, { barIndex, offset }: Position): Quarters {
  const bar = score.bars[barIndex];
  if (!bar) return noQuarters;
  const phase = addQuarters(missingBefore(score, bar), offset);
  return isEqualQuarters(phase, bar.metreLength) ? noQuarters : phase;
}
