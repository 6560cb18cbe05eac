import { compareQuarters, type Quarters, quartersAsNumber, subtractQuarters } from "./quarters";
import type { TempoSegment } from "./tempo-segment";

/** Tempo at a place inside a segment: even change over written time. */
export function tempoWithin(segment: TempoSegment, at: Quarters): number {
  const { startQuartersPerMinute: start, endQuartersPerMinute: end } = segment;
  if (start === end) return start;
  const length = quartersAsNumber(subtractQuarters(segment.to, segment.from));
  return start + ((end - start) * quartersAsNumber(subtractQuarters(at, segment.from))) / length;
}

/** Divides a segment at a place inside it. */
function splitAt(segment: TempoSegment, at: Quarters): [TempoSegment, TempoSegment] {
  const tempo = tempoWithin(segment, at);
  return [
    { ...segment, to: at, endQuartersPerMinute: tempo },
    { ...segment, from: at, startQuartersPerMinute: tempo },
  ];
}

/**
 * Segments changed inside the spans and as they were outside; segments are divided at the spans' ends.
 *
 * @param spans in order and apart from each other.
 */
export function changeWithin(
  segments: readonly TempoSegment[],
  spans: readonly { readonly from: Quarters; readonly to: Quarters }[],
  change: (segment: TempoSegment) => TempoSegment,
): TempoSegment[] {
  const changed: TempoSegment[] = [];
  let next = 0;
  for (const segment of segments) {
    let rest: TempoSegment | null = segment;
    while (rest) {
      const span = spans[next];
      if (!span || compareQuarters(span.from, rest.to) >= 0) {
        changed.push(rest);
        rest = null;
      } else if (compareQuarters(span.to, rest.from) <= 0) next += 1;
      else if (compareQuarters(span.from, rest.from) > 0) {
        const [before, after]: [TempoSegment, TempoSegment] = splitAt(rest, span.from);
        changed.push(before);
        rest = after;
      } else if (compareQuarters(span.to, rest.to) < 0) {
        const [inside, after]: [TempoSegment, TempoSegment] = splitAt(rest, span.to);
        changed.push(change(inside));
        rest = after;
      } else {
        changed.push(change(rest));
        rest = null;
      }
    }
  }
  return changed;
}
