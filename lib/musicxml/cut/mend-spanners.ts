import { comparePositions } from "@/lib/score/position";
import { child, cloneElement, element, type XmlElement } from "../xml-tree";
import { notationsOf } from "./insert-in-note";
import { keptPosition, type Mending, removeMark, spanAfter, spanBefore } from "./mending";
import { isChordMember, isGrace, isNote, isRest, type PartEvent, voiceOf } from "./part-events";
import { retypeNote } from "./retype-note";
import { withoutIds } from "./running-attributes";
import { findSpanners, type Spanner, type SpannerMark } from "./spanners";

/** These cannot be shortened: half a glissando leads nowhere, and a tremolo needs both its notes. */
const indivisible = new Set(["glissando", "slide", "tremolo", "hammer-on", "pull-off"]);

/**
 * Repairs everything that spans notes and lost an end to a cut: it is closed on the last note (at the last place) that
 * is left of it, begun again on the first, or taken away when nothing is left to span.
 */
export function mendSpanners(mending: Mending): void {
  for (const spanner of findSpanners(mending.music)) {
    const start = mending.placeOf(spanner.start.event)?.span;
    const stop = mending.placeOf(spanner.stop.event)?.span;
    if (start !== undefined && stop !== undefined) continue;
    const first = start ?? spanAfter(mending.spans, keptPosition(mending, spanner.start.event));
    const last = stop ?? spanBefore(mending.spans, keptPosition(mending, spanner.stop.event));
    if (first > last || indivisible.has(spanner.name)) removeLeft(mending, spanner);
    else if (spanner.onNotes) mendOnNotes(mending, spanner, first, last);
    else mendDirection(mending, spanner, first, last);
  }
}

const isKept = (mending: Mending, mark: SpannerMark): boolean => mending.placeOf(mark.event) !== null;

function removeLeft(mending: Mending, spanner: Spanner): void {
  for (const mark of [spanner.start, ...spanner.between, spanner.stop]) {
    if (!isKept(mending, mark)) continue;
    removeMark(mending, mark.event, mark.holder, mark.mark);
    // Each note of a two-note tremolo is written with the value of both.
    if (spanner.name === "tremolo") retypeNote(mark.event.node, mark.event.length);
  }
}

function mendOnNotes(mending: Mending, spanner: Spanner, first: number, last: number): void {
  const { start, stop } = spanner;
  const from = isKept(mending, start) ? start.event : findNote(mending, spanner, first, "first");
  const to = isKept(mending, stop) ? stop.event : findNote(mending, spanner, last, "last");
  const isEmpty =
    !from || !to || (spanner.name === "slur" && from.node === to.node) || isAfter(mending, from, to);
  if (isEmpty) {
    removeLeft(mending, spanner);
    return;
  }
  if (from !== start.event) addMark(from.node, start, "start");
  if (to !== stop.event) addMark(to.node, { ...start, mark: stop.mark }, "stop");
}

function isAfter(mending: Mending, a: PartEvent, b: PartEvent): boolean {
  return comparePositions(keptPosition(mending, a), keptPosition(mending, b)) > 0;
}

/** The first or last note that is left of the voice within the spanner, in one span. Chords by their first note. */
function findNote(
  mending: Mending,
  { start, stop }: Spanner,
  span: number,
  which: "first" | "last",
): PartEvent | null {
  const voice = voiceOf(which === "first" ? stop.event : start.event);
  const notes: PartEvent[] = [];
  for (let index = start.event.barIndex; index <= stop.event.barIndex; index += 1) {
    for (const event of mending.music.bars[index]?.events ?? []) {
      if (!isNote(event) || isRest(event) || isGrace(event) || isChordMember(event)) continue;
      if (voiceOf(event) !== voice || mending.placeOf(event)?.span !== span) continue;
      if (!isAfter(mending, start.event, event) && !isAfter(mending, event, stop.event)) notes.push(event);
    }
  }
  notes.sort((a, b) => comparePositions(keptPosition(mending, a), keptPosition(mending, b)));
  return (which === "first" ? notes[0] : notes.at(-1)) ?? null;
}

/** Writes one end of a spanner on another note, in the same kind of holder. */
function addMark(note: XmlElement, like: SpannerMark, type: "start" | "stop"): void {
  const notations = notationsOf(note);
  const mark = withoutPlaces(withoutIds(cloneElement(like.mark)));
  mark.attributes.type = type;
  if (type === "stop") mark.children = [];
  if (like.holder.name === "notations") {
    notations.children.push(mark);
    return;
  }
  const holder = child(notations, like.holder.name);
  if (holder) holder.children.push(mark);
  else notations.children.push(element(like.holder.name, {}, mark));
}

function mendDirection(mending: Mending, spanner: Spanner, first: number, last: number): void {
  const { start, stop } = spanner;
  const from = mending.spans[first]?.from;
  const to = mending.spans[last]?.to;
  const isStartKept = isKept(mending, start);
  const isStopKept = isKept(mending, stop);
  const begin = isStartKept ? keptPosition(mending, start.event) : from;
  const end = isStopKept ? keptPosition(mending, stop.event) : to;
  if (!begin || !end || comparePositions(begin, end) >= 0 || isAtBarEnd(mending, spanner, last)) {
    removeLeft(mending, spanner);
    return;
  }
  if (!isStartKept) mending.atStart[first]?.push(directionLike(start, {}));
  if (!isStopKept) mending.atEnd[last]?.push(directionLike(start, stopAttributes(start.mark)));
}

/** A start that stands at the very end of the last bar before a cut has nothing left to span. */
function isAtBarEnd(mending: Mending, { start, stop }: Spanner, last: number): boolean {
  const to = mending.spans[last]?.to;
  if (!to || isKept(mending, stop) || to.offset.num > 0 || start.event.barIndex !== to.barIndex - 1)
    return false;
  const length = mending.music.bars[start.event.barIndex]?.length;
  return length !== undefined && start.event.at.num * length.den >= length.num * start.event.at.den;
}

/** A direction with nothing but a spanner's mark, on the staff of the given one. */
function directionLike({ event, mark }: SpannerMark, changed: Record<string, string>): XmlElement {
  const placement = event.node.attributes.placement;
  const copy = withoutPlaces(withoutIds(cloneElement(mark)));
  Object.assign(copy.attributes, changed);
  const direction = element("direction", placement ? { placement } : {}, element("direction-type", {}, copy));
  for (const name of ["voice", "staff"]) {
    const found = child(event.node, name);
    if (found) direction.children.push({ ...found });
  }
  return direction;
}

/** What is written at another place no longer stands where the source says on its paper. */
function withoutPlaces(node: XmlElement): XmlElement {
  for (const name of Object.keys(node.attributes)) {
    if (/^(default|relative|bezier)-|^(placement|orientation)$/.test(name)) delete node.attributes[name];
  }
  return node;
}

/** MusicXML 4.0: what a stop repeats of its start. */
function stopAttributes(start: XmlElement): Record<string, string> {
  const lineEnd: Record<string, string> = start.name === "bracket" ? { "line-end": "none" } : {};
  return { type: "stop", ...lineEnd };
}
