import { addQuarters, compareQuarters, type Quarters } from "@/lib/score/quarters";
import { child, childrenNamed, textOf, type XmlElement } from "../xml-tree";
import { type Mending, removeChild, removeMark } from "./mending";
import { eventsInTime, isNote, type PartEvent, type PartMusic, voiceOf } from "./part-events";

/**
 * Ties join neighbours only: one that lost its other note to a cut, or whose notes no longer follow each other, goes,
 * and the note after the cut is struck anew.
 */
export function mendTies(mending: Mending): void {
  for (const [from, to] of pairTies(mending.music)) {
    const before = mending.placeOf(from)?.span;
    const after = mending.placeOf(to)?.span;
    if (before === after) continue;
    if (before !== undefined) dropTie(mending, from, "start");
    if (after !== undefined) dropTie(mending, to, "stop");
  }
  // A source may tie a note to nothing; once it is shortened, not even that is true.
  for (const event of mending.music.bars.flatMap((bar) => bar.events)) {
    const place = mending.placeOf(event);
    const isCutOff = place?.isShortened && compareQuarters(endOf(place), endOf(event)) < 0;
    if (isCutOff && isNote(event)) dropTie(mending, event, "start");
  }
}

const endOf = ({ at, length }: { at: Quarters; length: Quarters }): Quarters => addQuarters(at, length);

/** Each tie of a part as the notes it joins: the same pitch, rather neighbours, rather in the same voice. */
function pairTies(music: PartMusic): [PartEvent, PartEvent][] {
  const pairs: [PartEvent, PartEvent][] = [];
  const open = new Map<string, PartEvent[]>();
  for (const event of eventsInTime(music)) {
    const pitch = isNote(event) ? pitchName(event.node) : null;
    if (pitch === null) continue;
    const waiting = open.get(pitch) ?? [];
    if (hasTie(event.node, "stop")) {
      const isSameVoice = (from: PartEvent) => voiceOf(from) === voiceOf(event);
      const isNear = (from: PartEvent) => isNeighbour(music, from, event);
      const tests = [(from: PartEvent) => isNear(from) && isSameVoice(from), isNear, isSameVoice];
      const found = tests.map((test) => waiting.findIndex(test)).find((index) => index !== -1);
      const [from] = waiting.splice(found ?? 0, 1);
      if (from) pairs.push([from, event]);
    }
    if (hasTie(event.node, "start")) waiting.push(event);
    open.set(pitch, waiting);
  }
  return pairs;
}

/** Whether a note begins where another ends, over a bar line too. */
function isNeighbour({ bars }: PartMusic, from: PartEvent, to: PartEvent): boolean {
  if (from.barIndex === to.barIndex) return compareQuarters(endOf(from), to.at) === 0;
  const length = bars[from.barIndex]?.length;
  const isNext = to.barIndex === from.barIndex + 1 && to.at.num === 0;
  return isNext && length !== undefined && compareQuarters(endOf(from), length) === 0;
}

/** Step, alteration and octave, or the place of an unpitched note; null for a rest. */
function pitchName(note: XmlElement): string | null {
  const pitch = child(note, "pitch");
  if (pitch) {
    const part = (name: string) => textOf(child(pitch, name)).trim();
    return `${part("step")}${Number(part("alter"))} ${part("octave")}`;
  }
  const unpitched = child(note, "unpitched");
  return (
    unpitched &&
    `unpitched ${textOf(child(unpitched, "display-step"))}${textOf(child(unpitched, "display-octave"))}`
  );
}

export function hasTie(note: XmlElement, type: "start" | "stop"): boolean {
  return (
    childrenNamed(note, "tie").some((tie) => tie.attributes.type === type) ||
    childrenNamed(note, "notations").some((notations) =>
      childrenNamed(notations, "tied").some((tied) => tied.attributes.type === type),
    )
  );
}

function dropTie(mending: Mending, event: PartEvent, type: "start" | "stop"): void {
  const note = event.node;
  for (const tie of childrenNamed(note, "tie")) if (tie.attributes.type === type) removeChild(note, tie);
  for (const notations of childrenNamed(note, "notations")) {
    for (const tied of childrenNamed(notations, "tied")) {
      if (tied.attributes.type === type) removeMark(mending, event, notations, tied);
    }
  }
}
