import type { CutSpan } from "@/lib/score/cut-span";
import { comparePositions, type Position } from "@/lib/score/position";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  isEqualQuarters,
  laterOf,
  noQuarters,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { PartEvent } from "./part-events";

/** Music that stays, from `from` up to `to`, exclusive. `to` may be the bar after the last, offset 0. */
export interface KeptSpan {
  readonly from: Position;
  readonly to: Position;
}

/**
 * What the cuts leave of a piece. Cuts that touch or overlap count as one; an empty cut is none.
 *
 * @param lengths of the bars.
 * @throws RangeError if a cut lies outside the piece or is reversed.
 */
export function findKeptSpans(lengths: readonly Quarters[], cuts: readonly CutSpan[]): KeptSpan[] {
  const end: Position = { barIndex: lengths.length, offset: noQuarters };
  const spans: KeptSpan[] = [];
  let from: Position = { barIndex: 0, offset: noQuarters };
  const inOrder = cuts.map((cut) => tidyCut(lengths, cut)).sort((a, b) => comparePositions(a.from, b.from));
  for (const cut of inOrder) {
    if (comparePositions(cut.from, cut.to) === 0) continue;
    if (comparePositions(cut.from, from) > 0) spans.push({ from, to: cut.from });
    if (comparePositions(cut.to, from) > 0) from = cut.to;
  }
  if (comparePositions(from, end) < 0) spans.push({ from, to: end });
  return spans;
}

function tidyCut(lengths: readonly Quarters[], cut: CutSpan): CutSpan {
  const tidy = { from: tidyPosition(lengths, cut.from), to: tidyPosition(lengths, cut.to) };
  if (comparePositions(tidy.from, tidy.to) > 0) {
    throw new RangeError(`A cut goes back from bar ${cut.from.barIndex} to bar ${cut.to.barIndex}`);
  }
  return tidy;
}

/** The end of a bar is written as the start of the next. */
function tidyPosition(lengths: readonly Quarters[], { barIndex, offset }: Position): Position {
  const length = lengths[barIndex];
  if (length === undefined && barIndex === lengths.length && offset.num === 0) return { barIndex, offset };
  if (length === undefined || offset.num < 0 || compareQuarters(offset, length) > 0) {
    throw new RangeError(`No such place in the piece: bar ${barIndex}, offset ${offset.num}/${offset.den}`);
  }
  const isEnd = offset.num > 0 && isEqualQuarters(offset, length);
  return isEnd ? { barIndex: barIndex + 1, offset: noQuarters } : { barIndex, offset };
}

/** Where an event stands in what is left. */
export interface Place {
  /** Index of the kept span. */
  readonly span: number;
  /** From the start of its bar in the source: later than written for a note that is held over into the span. */
  readonly at: Quarters;
  /** Shorter than written for a note that is held across an end of the span. */
  readonly length: Quarters;
  readonly isShortened: boolean;
}

/** The span that an event belongs to, and how much of it is left there; null when it is cut. */
export function placeEvent(spans: readonly KeptSpan[], event: PartEvent): Place | null {
  const position: Position = { barIndex: event.barIndex, offset: event.at };
  let index = spans.findIndex((span) => comparePositions(position, span.to) < 0);
  const span = spans[index];
  if (!span) return null;
  if (comparePositions(position, span.from) >= 0) return placeFrom(spans, index, event, event.at);
  // The event begins in a gap. What is still held at the end of the gap is taken up again there.
  index = spans.findIndex((later) => later.from.barIndex === event.barIndex && isHeldInto(event, later));
  const start = spans[index]?.from.offset;
  return start ? placeFrom(spans, index, event, start) : null;
}

function isHeldInto(event: PartEvent, span: KeptSpan): boolean {
  const start = subtractQuarters(span.from.offset, event.at);
  return start.num > 0 && compareQuarters(start, event.length) < 0;
}

/** An event that sounds from `at` on in a span, less what any gap in its bar takes away. */
function placeFrom(spans: readonly KeptSpan[], index: number, event: PartEvent, at: Quarters): Place {
  const end: Quarters = addQuarters(event.at, event.length);
  let length = noQuarters;
  for (const span of spans.slice(index)) {
    if (span.from.barIndex > event.barIndex) break;
    const from = span.from.barIndex < event.barIndex ? at : laterOf(at, span.from.offset);
    const to = span.to.barIndex > event.barIndex ? end : earlierOf(end, span.to.offset);
    if (compareQuarters(from, to) < 0) length = addQuarters(length, subtractQuarters(to, from));
  }
  return { span: index, at, length, isShortened: !isEqualQuarters(length, event.length) };
}
