import { compareQuarters, type Quarters, quartersAsNumber, subtractQuarters } from "./quarters";
import type { TempoSegment } from "./tempo-segment";

/** Tempo at a place inside a segment: even change over written time. */
export function tempoWithin(segment: TempoSegment, at: Quarters): number {
  const { startQuartersPerMinute: start, endQuartersPerMinute: end } = segment;
  if (start === end) return start;
  const length = quartersAsNumber(subtractQuarters(segment.to, segment.from));
  return start + ((end - start) * quartersAsNumber(subtractQuarters(at, segment.from))) / length;
}

function splitAt(segment: TempoSegment, at: Quarters): TempoSegment[] {
  if (compareQuarters(at, segment.from) <= 0 || compareQuarters(at, segment.to) >= 0) return [segment];
  const tempo = tempoWithin(segment, at);
  return [
    { ...segment, to: at, endQuartersPerMinute: tempo },
    { ...segment, from: at, startQuartersPerMinute: tempo },
  ];
}

/** Segments changed inside the spans and as they were outside; segments are divided at the spans' ends. */
export function changeWithin(
  segments: readonly TempoSegment[],
  spans: readonly { readonly from: Quarters; readonly to: Quarters }[],
  change: (segment: TempoSegment) => TempoSegment,
): TempoSegment[] {
  let changed = [...segments];
  for (const { from, to } of spans) {
    changed = changed
      .flatMap((segment) => splitAt(segment, from))
      .flatMap((segment) => splitAt(segment, to))
      .map((segment) => {
        const isInside = compareQuarters(segment.from, from) >= 0 && compareQuarters(segment.to, to) <= 0;
        return isInside ? change(segment) : segment;
      });
  }
  return changed;
}
