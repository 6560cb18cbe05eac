import type { PerformedOrder } from "./performed-order";
import type { Quarters } from "./quarters";
import type { Score } from "./score";
import { type Seconds, seconds } from "./seconds";
import type { TempoMap } from "./tempo-segment";
import { readTimeline } from "./timeline";

/**
 * Clock time from one performed time to another; negative when `toPerformed` is the earlier. For many of them read a
 * timeline once.
 *
 * @throws RangeError if either lies outside the order.
 */
export function secondsBetween(
  map: TempoMap,
  score: Score,
  order: PerformedOrder,
  fromPerformed: Quarters,
  toPerformed: Quarters,
): Seconds {
  const timeline = readTimeline(score, order, map);
  return seconds(timeline.secondsAtPerformed(toPerformed) - timeline.secondsAtPerformed(fromPerformed));
}
