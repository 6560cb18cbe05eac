import type { CutSpan } from "./cut-span";
import { onsetOf } from "./onset-of";
import type { PerformedOrder } from "./performed-order";
import { findPerformedStretches } from "./performed-stretches";
import type { Score } from "./score";
import type { Timeline } from "./timeline";

/** Seconds of a performance; `to` exclusive. */
export interface ClockStretch {
  readonly from: number;
  readonly to: number;
}

/** Every stretch of the clock in which the music of a written span sounds: one for each time it is played. */
export function findClockStretches(
  { score, order, timeline }: { score: Score; order: PerformedOrder; timeline: Timeline },
  { from, to }: CutSpan,
): ClockStretch[] {
  return findPerformedStretches(score, order, onsetOf(score, from), onsetOf(score, to))
    .map((stretch) => ({
      from: timeline.secondsAtPerformed(stretch.from),
      to: timeline.secondsAtPerformed(stretch.to),
    }))
    .filter((stretch) => stretch.to > stretch.from);
}
