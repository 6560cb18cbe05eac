import type { Bar } from "@/lib/score/bar";
import { beatOf } from "@/lib/score/beat-of";
import type { Position } from "@/lib/score/position";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  type Quarters,
  quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** A short stretch of one bar. Written time, end exclusive. */
export interface Frame {
  readonly at: Position;
  readonly onset: Quarters;
  readonly end: Quarters;
}

export const quarterNote: Quarters = quarters(1);

/** An upbeat is counted towards its end, so its first frame may be short; in other bars the last may be. */
function cutBar(bar: Bar, step: Quarters): Frame[] {
  const frames: Frame[] = [];
  const end = addQuarters(bar.start, bar.length);
  const lacking = bar.isPickup ? remainder(bar.length, step) : step;
  let onset = bar.start;
  let next = addQuarters(onset, lacking.num === 0 ? step : lacking);
  while (compareQuarters(onset, end) < 0) {
    const stop = earlierOf(next, end);
    frames.push({
      at: { barIndex: bar.index, offset: subtractQuarters(onset, bar.start) },
      onset,
      end: stop,
    });
    onset = stop;
    next = addQuarters(onset, step);
  }
  return frames;
}

function remainder(length: Quarters, step: Quarters): Quarters {
  const times = Math.floor((length.num * step.den) / (length.den * step.num));
  return subtractQuarters(length, quarters(step.num * times, step.den));
}

/**
 * Each bar cut into frames of equal length; what is left of a bar is a shorter frame. They tile the written order.
 *
 * @throws RangeError if `step` is not positive.
 */
export function cutIntoFrames(score: Score, step: Quarters): Frame[] {
  if (step.num <= 0) throw new RangeError(`Not a length of frames: ${step.num}/${step.den}`);
  return score.bars.flatMap((bar) => cutBar(bar, step));
}

/** Each bar cut into the beats that its metre is counted in; see `beatOf`. */
export function cutIntoBeats(score: Score): Frame[] {
  return score.bars.flatMap((bar) => cutBar(bar, beatOf(bar.metre)));
}

/** Index of the frame that holds a written time; −1 before the first, the last one behind the end. Frames tile. */
export function frameIndexAt(frames: readonly Frame[], time: Quarters): number {
  let low = 0;
  let high = frames.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const frame = frames[middle];
    if (frame && compareQuarters(frame.onset, time) <= 0) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
