import {
  compareQuarters,
  earlierOf,
  laterOf,
  type Quarters,
  quartersAsNumber,
  subtractQuarters,
} from "./quarters";
import { tempoWithin } from "./split-segments";
import type { TempoMap, TempoSegment } from "./tempo-segment";

/**
 * Seconds of a stretch inside one segment: the integral of 60 ÷ tempo over written time. With an even change from
 * tempo a to tempo b over n quarters it is 60 · n · ln(b ÷ a) ÷ (b − a).
 */
export function secondsWithin(segment: TempoSegment, from: Quarters, to: Quarters): number {
  const length = quartersAsNumber(subtractQuarters(to, from));
  const start = tempoWithin(segment, from);
  const end = tempoWithin(segment, to);
  const change = end - start;
  // Below this the logarithm loses digits; the mean tempo is exact to more of them.
  if (Math.abs(change) < 1e-6 * start) return (60 * length * 2) / (start + end);
  return (60 * length * Math.log(end / start)) / change;
}

/** The segments that meet `[from, to)`, each with the part of it that lies inside. */
export function segmentsBetween(
  { segments }: TempoMap,
  from: Quarters,
  to: Quarters,
): { segment: TempoSegment; from: Quarters; to: Quarters }[] {
  const found: { segment: TempoSegment; from: Quarters; to: Quarters }[] = [];
  for (let index = firstEndingAfter(segments, from); index < segments.length; index += 1) {
    const segment = segments[index];
    if (!segment || compareQuarters(segment.from, to) >= 0) break;
    found.push({ segment, from: laterOf(from, segment.from), to: earlierOf(to, segment.to) });
  }
  return found;
}

function firstEndingAfter(segments: readonly TempoSegment[], onset: Quarters): number {
  let low = 0;
  let high = segments.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const segment = segments[middle];
    if (segment && compareQuarters(segment.to, onset) <= 0) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Seconds between two written times, as if played straight through. */
export function writtenSeconds(map: TempoMap, from: Quarters, to: Quarters): number {
  return segmentsBetween(map, from, to).reduce(
    (sum, piece) => sum + secondsWithin(piece.segment, piece.from, piece.to),
    0,
  );
}

/**
 * Seconds from the start of the piece to a written time, as if played straight through; behind the end the clock stands
 * still. For many questions to one map.
 */
export function readWrittenClock({ segments }: TempoMap): (written: Quarters) => number {
  const starts: number[] = [];
  let now = 0;
  for (const segment of segments) {
    starts.push(now);
    now += secondsWithin(segment, segment.from, segment.to);
  }
  return (written) => {
    const index = Math.min(firstEndingAfter(segments, written), segments.length - 1);
    const segment = segments[index];
    if (!segment || compareQuarters(written, segment.from) <= 0) return starts[index] ?? 0;
    return (starts[index] ?? 0) + secondsWithin(segment, segment.from, earlierOf(written, segment.to));
  };
}

/** The inverse of `secondsWithin`: quarters played in `time` seconds from `from` on. */
export function quartersWithin(segment: TempoSegment, from: Quarters, time: number): number {
  const start = tempoWithin(segment, from);
  const length = quartersAsNumber(subtractQuarters(segment.to, segment.from));
  const slope = (segment.endQuartersPerMinute - segment.startQuartersPerMinute) / length;
  const growth = (slope * time) / 60;
  return Math.abs(growth) < 1e-6 ? (start * time) / 60 : (start * Math.expm1(growth)) / slope;
}
