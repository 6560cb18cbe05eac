import { comparePositions, type Position } from "@/lib/score/position";
import { child, childElements, type XmlElement } from "../xml-tree";
import { type KeptSpan, type Place, placeEvent } from "./kept-spans";
import type { PartEvent, PartMusic } from "./part-events";

/** A part while it is being cut: what stays where, and what has been found to go or to be added. */
export interface Mending {
  readonly music: PartMusic;
  readonly spans: readonly KeptSpan[];
  /** Null for what is cut. */
  readonly placeOf: (event: PartEvent) => Place | null;
  /** Elements of measures that go although their place stays. */
  readonly removed: Set<XmlElement>;
  /** Elements to be written where each kept span starts. */
  readonly atStart: readonly XmlElement[][];
  /** Elements to be written where each kept span ends. */
  readonly atEnd: readonly XmlElement[][];
}

export function beginMending(music: PartMusic, spans: readonly KeptSpan[]): Mending {
  const places = new Map<PartEvent, Place | null>();
  for (const bar of music.bars) for (const event of bar.events) places.set(event, placeEvent(spans, event));
  return {
    music,
    spans,
    placeOf: (event) => places.get(event) ?? null,
    removed: new Set(),
    atStart: spans.map(() => []),
    atEnd: spans.map(() => []),
  };
}

/** Where an event stands in the source, or where what is left of it begins. */
export function keptPosition(mending: Mending, event: PartEvent): Position {
  return { barIndex: event.barIndex, offset: mending.placeOf(event)?.at ?? event.at };
}

/** Index of the first span that starts after `position`; the number of spans when none does. */
export function spanAfter(spans: readonly KeptSpan[], position: Position): number {
  const index = spans.findIndex((span) => comparePositions(span.from, position) >= 0);
  return index === -1 ? spans.length : index;
}

/** Index of the last span that ends before `position`; -1 when none does. */
export function spanBefore(spans: readonly KeptSpan[], position: Position): number {
  return spans.findLastIndex((span) => comparePositions(span.to, position) <= 0);
}

export function removeChild(parent: XmlElement, node: XmlElement): void {
  parent.children = parent.children.filter((each) => each !== node);
}

/** Takes a mark out of its note or direction, with every holder that it leaves empty. */
export function removeMark(mending: Mending, event: PartEvent, holder: XmlElement, mark: XmlElement): void {
  removeChild(holder, mark);
  if (event.node.name === "direction") {
    tidyDirection(mending, event.node, holder);
    return;
  }
  for (const notations of childElements(event.node).filter((node) => node.name === "notations")) {
    for (const group of childElements(notations)) {
      if (/^(ornaments|technical)$/.test(group.name) && childElements(group).length === 0)
        removeChild(notations, group);
    }
    if (childElements(notations).length === 0) removeChild(event.node, notations);
  }
}

function tidyDirection(mending: Mending, direction: XmlElement, holder: XmlElement): void {
  if (childElements(holder).length === 0) removeChild(direction, holder);
  if (child(direction, "direction-type")) return;
  const sound = child(direction, "sound");
  // A direction without a type is no MusicXML; a sound may stand alone.
  if (sound)
    Object.assign(direction, { name: "sound", attributes: sound.attributes, children: sound.children });
  else mending.removed.add(direction);
}
