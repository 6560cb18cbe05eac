import { noQuarters, type Quarters, quarters } from "@/lib/score/quarters";
import { child, childElements, childrenNamed, textOf, type XmlElement } from "../xml-tree";

/** An element of a measure with its place in time. `backup` and `forward` only move the cursor and are no events. */
export interface PartEvent {
  readonly node: XmlElement;
  readonly barIndex: number;
  /** From the start of the bar. */
  readonly at: Quarters;
  /** 0 for what has no duration, grace notes included. */
  readonly length: Quarters;
  /** Place in the document, counted over the whole part. */
  readonly order: number;
}

export interface PartBar {
  readonly measure: XmlElement;
  readonly events: readonly PartEvent[];
  /** How far the part's own music reaches in this bar. */
  readonly length: Quarters;
}

export interface PartMusic {
  readonly part: XmlElement;
  /** Constant over the part: see `evenDivisions`. */
  readonly divisions: number;
  readonly bars: readonly PartBar[];
}

/**
 * The elements of a part with their exact places in time.
 *
 * @param divisions of the whole part.
 * Durations that are no number count as 0, and the cursor never goes below the start of a bar, as in reading.
 */
export function readPartEvents(part: XmlElement, divisions: number): PartMusic {
  let order = 0;
  const bars = childrenNamed(part, "measure").map((measure, barIndex): PartBar => {
    const events: PartEvent[] = [];
    const reach = walkMeasure(measure, (node, at, length) => {
      events.push({
        node,
        barIndex,
        at: quarters(at, divisions),
        length: quarters(length, divisions),
        order,
      });
      order += 1;
    });
    const length = quarters(reach, divisions);
    return { measure, events: events.map((event) => standAtEdge(event, length)), length };
  });
  return { part, divisions, bars };
}

/** A bar line belongs to the edge that it names, wherever the cursor stands. Without a name it is the right one. */
function standAtEdge(event: PartEvent, barLength: Quarters): PartEvent {
  if (event.node.name === "print") return { ...event, at: noQuarters };
  if (event.node.name !== "barline" || event.node.attributes.location === "middle") return event;
  return { ...event, at: event.node.attributes.location === "left" ? noQuarters : barLength };
}

/** Visits the elements of one measure; times in divisions. Returns the furthest the cursor got. */
function walkMeasure(
  measure: XmlElement,
  visit: (node: XmlElement, at: number, length: number) => void,
): number {
  let cursor = 0;
  let reach = 0;
  let chordAt = 0;
  for (const node of childElements(measure)) {
    const length = node.name === "note" && child(node, "grace") ? 0 : durationOf(node);
    if (node.name === "backup") cursor = Math.max(0, cursor - length);
    else if (node.name === "forward") cursor += length;
    else if (node.name !== "note") visit(node, cursor, 0);
    else if (child(node, "chord")) visit(node, chordAt, length);
    else {
      visit(node, cursor, length);
      chordAt = cursor;
      cursor += length;
    }
    reach = Math.max(reach, cursor);
  }
  return reach;
}

function durationOf(node: XmlElement): number {
  const value = Number(textOf(child(node, "duration")));
  return Number.isSafeInteger(value) && value > 0 ? value : 0;
}

export const isNote = (event: PartEvent): boolean => event.node.name === "note";
export const isRest = (event: PartEvent): boolean => isNote(event) && child(event.node, "rest") !== null;
export const isGrace = (event: PartEvent): boolean => isNote(event) && child(event.node, "grace") !== null;
export const isChordMember = (event: PartEvent): boolean =>
  isNote(event) && child(event.node, "chord") !== null;

export const voiceOf = (event: PartEvent): string => textOf(child(event.node, "voice")).trim() || "1";
export const staffOf = (node: XmlElement): string => textOf(child(node, "staff")).trim() || "1";

/** Every event of a part in the order of time, then of the document. */
export function eventsInTime(music: PartMusic): PartEvent[] {
  return music.bars.flatMap((bar) =>
    bar.events.toSorted((a, b) => a.at.num * b.at.den - b.at.num * a.at.den || a.order - b.order),
  );
}

/** The longest that any part needs in each bar. */
export function barLengths(parts: readonly PartMusic[]): Quarters[] {
  const count = Math.max(0, ...parts.map((music) => music.bars.length));
  return Array.from({ length: count }, (_, index) =>
    parts.reduce((longest, music) => {
      const length = music.bars[index]?.length ?? noQuarters;
      return length.num * longest.den > longest.num * length.den ? length : longest;
    }, noQuarters),
  );
}
