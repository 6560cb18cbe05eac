import { onsetOf } from "./onset-of";
import { findPerformedOrder, type PerformedBar } from "./performed-order";
import { addQuarters, compareQuarters, earlierOf, laterOf, type Quarters, writeQuarters } from "./quarters";
import type { Score } from "./score";
import { changeWithin } from "./split-segments";
import type { TempoMap, TempoSegment } from "./tempo-segment";
import type { TempoSettings } from "./tempo-settings";
import { writtenSeconds } from "./written-seconds";

interface Span {
  readonly from: Quarters;
  readonly to: Quarters;
}

/** Written spans that sound between the first time `from` is reached and the first time after it that `to` is. */
function spansPlayed(score: Score, bars: readonly PerformedBar[], { from, to }: Span): Span[] {
  const spans: Span[] = [];
  for (const performed of bars) {
    const start = score.bars[performed.barIndex]?.start;
    if (!start) continue;
    const bar = { from: addQuarters(start, performed.from), to: addQuarters(start, performed.to) };
    const inside = { from: laterOf(bar.from, from), to: earlierOf(bar.to, to) };
    if (compareQuarters(inside.from, inside.to) < 0) spans.push(inside);
    const isPast = compareQuarters(bar.from, to) >= 0;
    if (spans.length > 0 && isPast) break;
  }
  return spans;
}

/**
 * Seconds of what a timing of `span` counts: from the first time its start is reached to the first time after it that
 * its end is, everything in between that lies outside it left out.
 *
 * @param bars of the performed order without cuts.
 */
export function timedSeconds(
  score: Score,
  bars: readonly PerformedBar[],
  span: Span,
  map: Pick<TempoMap, "segments">,
): number {
  return spansPlayed(score, bars, span).reduce(
    (sum, { from, to }) => sum + writtenSeconds({ segments: map.segments, assumptions: [] }, from, to),
    0,
  );
}

/**
 * Scales the tempo inside each timed section so that it lasts as long as the duo's stop-watch says.
 *
 * @throws RangeError if a timing lies outside the piece or ends before it begins.
 */
export function scaleByTimings(
  score: Score,
  segments: readonly TempoSegment[],
  timings: TempoSettings["timings"],
): TempoSegment[] {
  const { bars } = timings.length > 0 ? findPerformedOrder(score) : { bars: [] };
  let scaled = [...segments];
  for (const timing of timings) {
    const span = { from: onsetOf(score, timing.from), to: onsetOf(score, timing.to) };
    if (compareQuarters(span.from, span.to) >= 0) {
      throw new RangeError(
        `A timing ends at ${writeQuarters(span.to)}, not after ${writeQuarters(span.from)}`,
      );
    }
    const computed = timedSeconds(score, bars, span, { segments: scaled });
    if (computed > 0) scaled = scaleWithin(scaled, span, computed / timing.seconds);
  }
  return scaled;
}

function scaleWithin(segments: readonly TempoSegment[], span: Span, faster: number): TempoSegment[] {
  return changeWithin(segments, [span], (segment) => ({
    ...segment,
    startQuartersPerMinute: segment.startQuartersPerMinute * faster,
    endQuartersPerMinute: segment.endQuartersPerMinute * faster,
    basis: "timed",
    slowest: 1,
    fastest: 1,
  }));
}
