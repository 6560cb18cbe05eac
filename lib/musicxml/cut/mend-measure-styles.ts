import { comparePositions } from "@/lib/score/position";
import { noQuarters } from "@/lib/score/quarters";
import {
  child,
  childElements,
  childrenNamed,
  cloneElement,
  element,
  textOf,
  type XmlElement,
} from "../xml-tree";
import { type Mending, removeChild } from "./mending";
import { eventsInTime, type PartEvent } from "./part-events";
import { withoutIds } from "./running-attributes";

interface Style {
  readonly event: PartEvent;
  readonly style: XmlElement;
  /** `multiple-rest`, `measure-repeat`, `beat-repeat` or `slash`. */
  readonly kind: XmlElement;
}

/**
 * Shorthand that stands for several bars: a rest over bars that no longer follow each other is taken apart, repeat
 * signs and slashes that lost an end are ended or begun again at the cut.
 */
export function mendMeasureStyles(mending: Mending): void {
  const open = new Map<string, Style>();
  for (const style of findStyles(mending)) {
    if (style.kind.name === "multiple-rest") mendMultipleRest(mending, style);
    const key = `${style.kind.name} ${style.style.attributes.number ?? ""}`;
    if (style.kind.attributes.type === "start") open.set(key, style);
    if (style.kind.attributes.type !== "stop") continue;
    const start = open.get(key);
    open.delete(key);
    if (start) mendPair(mending, start, style);
  }
}

function findStyles(mending: Mending): Style[] {
  return eventsInTime(mending.music)
    .filter((event) => event.node.name === "attributes")
    .flatMap((event) =>
      childrenNamed(event.node, "measure-style").flatMap((style) =>
        childElements(style).map((kind) => ({ event, style, kind })),
      ),
    );
}

function mendMultipleRest(mending: Mending, { event, style, kind }: Style): void {
  const place = mending.placeOf(event);
  const span = place && mending.spans[place.span];
  if (!span) return;
  const end = { barIndex: event.barIndex + (Number(textOf(kind)) || 1), offset: noQuarters };
  const isWhole =
    comparePositions(end, span.to) <= 0 &&
    (event.barIndex > span.from.barIndex || span.from.offset.num === 0);
  if (!isWhole) removeStyle(mending, event.node, style);
}

function removeStyle(mending: Mending, attributes: XmlElement, style: XmlElement): void {
  removeChild(attributes, style);
  if (childElements(attributes).length === 0) mending.removed.add(attributes);
}

function mendPair(mending: Mending, start: Style, stop: Style): void {
  const first = mending.placeOf(start.event)?.span;
  const last = mending.placeOf(stop.event)?.span;
  if ((first === undefined) === (last === undefined)) return;
  if (first !== undefined) {
    // The stop is written in the first bar that is plain again.
    mending.atStart[first + 1]?.push(attributesWith(stop.style));
  } else if (last !== undefined) {
    const from = mending.spans[last]?.from;
    const isEmpty =
      from && comparePositions(from, { barIndex: stop.event.barIndex, offset: stop.event.at }) >= 0;
    if (isEmpty) removeStyle(mending, stop.event.node, stop.style);
    else mending.atStart[last]?.push(attributesWith(start.style));
  }
}

const attributesWith = (style: XmlElement): XmlElement =>
  element("attributes", {}, withoutIds(cloneElement(style)));

/** The signs that stand for the bar before them, for which a cut may have put another bar there. */
export function hasBarRepeat(measure: XmlElement): boolean {
  return childrenNamed(measure, "attributes").some((attributes) =>
    childrenNamed(attributes, "measure-style").some((style) => child(style, "measure-repeat") !== null),
  );
}
