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
import { setText } from "../cut/even-divisions";
import type { KeptSpan, Place } from "../cut/kept-spans";
import { findUnmarked, mendAccidentals } from "../cut/mend-accidentals";
import { mendBeams } from "../cut/mend-beams";
import { mendLyrics } from "../cut/mend-lyrics";
import { mendSpanners } from "../cut/mend-spanners";
import { mendTies } from "../cut/mend-ties";
import type { Mending } from "../cut/mending";
import { isNote, isRest, type PartEvent, type PartMusic, readPartEvents } from "../cut/part-events";
import { printedLength, setValue, splitInValues } from "../cut/retype-note";
import { attributesBefore, findAttributes } from "../cut/running-attributes";
import { child, cloneElement, textOf, type XmlElement } from "../xml-tree";
import { orderInVoices } from "./order-in-voices";
import { rewriteMeasure } from "./rewrite-measure";

/** A note to be written, with its place. */
export interface NewNote {
  readonly barIndex: number;
  readonly node: XmlElement;
  readonly at: Quarters;
  readonly length: Quarters;
}

/**
 * Writes new notes and rests instead of those of a span of a part, which is changed in place. Everything in these bars
 * that is no note stays where it is. Notes held into the span end where it begins; of a note held out of it, what is
 * left is struck at its end. Ties, slurs, tuplets and beams that lose an end are mended, and accidentals are written
 * wherever a reader would miss them, on the new notes and on those after them.
 *
 * @param divisions of the whole part, in which every place is a whole number.
 */
export function replaceNotes(
  part: XmlElement,
  divisions: number,
  span: KeptSpan,
  notes: readonly NewNote[],
): void {
  const music = readPartEvents(part, divisions);
  const around = mendAround(music, span);
  const changes = findAttributes(music);
  for (const [barIndex, bar] of music.bars.entries()) {
    if (!isTouched(span, barIndex)) continue;
    const running = attributesBefore(changes, { barIndex: barIndex + 1, offset: noQuarters });
    const unmarked = new Set(findUnmarked({ running, events: bar.events }));
    const added = notes.filter((note) => note.barIndex === barIndex);
    for (const { node } of added) unmarked.add(node);
    const kept = bar.events.filter((event) => around.placeOf(event) !== null);
    const left = heldThrough(bar.events, span);
    const events = orderInVoices(bar.events, kept, [...added.map(toEvent), ...left]);
    mendAccidentals([{ running, events: events.map((event) => moved(event, around)) }], unmarked);
    const places = new Map(
      kept.flatMap((event) => {
        const place = around.placeOf(event);
        return place ? [[event, place] as const] : [];
      }),
    );
    rewriteMeasure(music, barIndex, events, places);
  }
}

function isTouched({ from, to }: KeptSpan, barIndex: number): boolean {
  return (
    barIndex >= from.barIndex && (barIndex < to.barIndex || (barIndex === to.barIndex && to.offset.num > 0))
  );
}

const toEvent = ({ barIndex, node, at, length }: NewNote): PartEvent => ({
  node,
  barIndex,
  at,
  length,
  order: Number.MAX_SAFE_INTEGER,
});

/** Of notes that begin before a span and outlast it in the same bar, what is left behind it. */
function heldThrough(events: readonly PartEvent[], { from, to }: KeptSpan): PartEvent[] {
  if (from.barIndex !== to.barIndex) return [];
  return events.flatMap((event) => {
    const end = addQuarters(event.at, event.length);
    const isThrough = compareQuarters(event.at, from.offset) < 0 && compareQuarters(end, to.offset) > 0;
    if (!isThrough || !isNote(event) || isRest(event) || event.barIndex !== from.barIndex) return [];
    const length = subtractQuarters(end, to.offset);
    const node = cloneElement(event.node);
    node.attributes.id = `${event.node.attributes.id ?? "n"}-after`;
    node.children = node.children.filter(
      (inner) => inner.kind !== "element" || !/^(accidental|beam|lyric|notations|tie)$/.test(inner.name),
    );
    const ticks = child(node, "duration");
    const [value = null, ...more] = splitInValues(printedLength(node, length)) ?? [];
    if (ticks)
      setText(
        ticks,
        `${Math.round((Number(textOf(ticks)) * length.num * event.length.den) / (length.den * event.length.num))}`,
      );
    setValue(node, more.length === 0 ? value : null);
    return [{ node, barIndex: event.barIndex, at: to.offset, length, order: Number.MAX_SAFE_INTEGER }];
  });
}

/** An event as it stands when what is around the span has been shortened. */
function moved(event: PartEvent, around: Mending): PartEvent {
  const place = around.placeOf(event);
  return place ? { ...event, at: place.at, length: place.length } : event;
}

/** Takes the notes of the span away and repairs what reached into it. */
function mendAround(music: PartMusic, span: KeptSpan): Mending {
  const end: Position = { barIndex: music.bars.length, offset: noQuarters };
  const mending: Mending = {
    music,
    spans: [
      { from: { barIndex: 0, offset: noQuarters }, to: span.from },
      { from: span.to, to: end },
    ],
    placeOf: (event) => placeAround(span, event),
    removed: new Set(),
    atStart: [[], []],
    atEnd: [[], []],
  };
  for (const event of music.bars.flatMap((bar) => bar.events)) {
    const rest = child(event.node, "rest");
    // What is left of a bar's own rest is no longer that.
    if (rest && mending.placeOf(event)?.isShortened) delete rest.attributes.measure;
  }
  mendSpanners(mending);
  mendTies(mending);
  mendBeams(mending);
  mendLyrics(mending);
  return mending;
}

/** Where an event stands beside the span; null for a note that goes. Whatever is no note stays. */
function placeAround({ from, to }: KeptSpan, event: PartEvent): Place | null {
  const { barIndex, at, length } = event;
  const position = { barIndex, offset: at };
  const isBefore = comparePositions(position, from) < 0;
  if (!isNote(event)) return { span: isBefore ? 0 : 1, at, length, isShortened: false };
  const end = addQuarters(at, length);
  if (isBefore) {
    const last = barIndex === from.barIndex ? earlierOf(end, from.offset) : end;
    return placed(0, event, at, subtractQuarters(last, at));
  }
  const first = barIndex === to.barIndex ? laterOf(at, to.offset) : at;
  const isLeft =
    comparePositions(position, to) >= 0 || (barIndex === to.barIndex && compareQuarters(first, end) < 0);
  return isLeft ? placed(1, event, first, subtractQuarters(end, first)) : null;
}

function placed(span: number, event: PartEvent, at: Quarters, length: Quarters): Place {
  return { span, at, length, isShortened: !isEqualQuarters(length, event.length) };
}
