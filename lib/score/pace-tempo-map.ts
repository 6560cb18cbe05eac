import { spreadOf } from "./running-time";
import type { TempoMap } from "./tempo-segment";

/** By the numbers, or at one end of the range in which real performances lie; see `findRunningTime`. */
export type Pace = "computed" | "fast" | "slow";

/**
 * The tempo map at the fast or slow end of its range: each tempo divided by what performances add to it.
 * Running times over it are the `low` and `high` of `findRunningTime`.
 */
export function paceTempoMap(map: TempoMap, pace: Pace): TempoMap {
  if (pace === "computed") return map;
  const segments = map.segments.map((segment) => {
    const spread = spreadOf(segment);
    const share = pace === "slow" ? spread.high : spread.low;
    return {
      ...segment,
      startQuartersPerMinute: segment.startQuartersPerMinute / share,
      endQuartersPerMinute: segment.endQuartersPerMinute / share,
    };
  });
  return { ...map, segments };
}
