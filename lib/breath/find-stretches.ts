import { positionPlayedFrom, positionPlayedUpTo } from "@/lib/score/performed-positions";
import type { Position } from "@/lib/score/position";
import { compareQuarters, noQuarters, type Quarters } from "@/lib/score/quarters";
import { type Seconds, seconds } from "@/lib/score/seconds";
import type { SoloPlaying } from "./find-breaths";

/** What is played on one breath. */
export interface Stretch {
  readonly performedFrom: Quarters;
  readonly performedTo: Quarters;
  readonly from: Position;
  readonly to: Position;
  readonly startSeconds: Seconds;
  readonly endSeconds: Seconds;
  readonly seconds: Seconds;
}

/** From each breath to the next, in performed order. */
export function findStretches({ score, order, timeline, breaths }: SoloPlaying): Stretch[] {
  const starts = [noQuarters, ...breaths.map(({ performedTo }) => performedTo)];
  const ends = [...breaths.map(({ performedFrom }) => performedFrom), order.length];
  return starts.flatMap((performedFrom, index): Stretch[] => {
    const performedTo = ends[index] ?? order.length;
    if (compareQuarters(performedFrom, performedTo) >= 0) return [];
    const [start, end] = [
      timeline.secondsAtPerformed(performedFrom),
      timeline.secondsAtPerformed(performedTo),
    ];
    return [
      {
        performedFrom,
        performedTo,
        from: positionPlayedFrom(order, performedFrom),
        to: positionPlayedUpTo(score, order, performedTo),
        startSeconds: start,
        endSeconds: end,
        seconds: seconds(end - start),
      },
    ];
  });
}

/** The first of the longest; null when nothing is played. */
export function findLongest(stretches: readonly Stretch[]): Stretch | null {
  let longest: Stretch | null = null;
  for (const stretch of stretches) if (!longest || stretch.seconds > longest.seconds) longest = stretch;
  return longest;
}
