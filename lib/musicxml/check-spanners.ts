import type { MusicXmlTree } from "./read-tree";
import { child, childElements, childrenNamed, textOf, type XmlElement } from "./xml-tree";

/** Something that joins notes and lost an end. */
export interface SpannerFault {
  readonly partId: string;
  /** Of the measure, or of the note for ties and beams. */
  readonly id: string;
  /** "tie", "beam", or the MusicXML name of the line: "slur", "wedge", "octave-shift", "pedal", "tuplet"… */
  readonly name: string;
  /** What pairs its ends: number-level or voice; "" for ties. */
  readonly key: string;
  readonly fault: "never stops" | "never started" | "out of place";
}

/**
 * What hangs loose in a score: slurs, hairpins, octave lines, pedals, tuplets, dashes, brackets, tremolos to and fro,
 * ties and beams of which one end is missing. Empty for a score that is whole.
 *
 * It knows nothing of how cuts are mended: one pass over each part in document order, so that it can judge what the
 * mending made. A stop that is written before its start in the same measure, in another voice, is paired with it.
 */
export function checkSpanners({ parts }: Pick<MusicXmlTree, "parts">): SpannerFault[] {
  return parts.flatMap((part) => {
    const partId = part.attributes.id ?? "";
    return [...checkLines(part), ...checkTies(part), ...checkBeams(part)].map((fault) => ({
      partId,
      ...fault,
    }));
  });
}

type Fault = Omit<SpannerFault, "partId">;

const lines = new Set([
  "slur",
  "glissando",
  "slide",
  "tuplet",
  "wavy-line",
  "tremolo",
  "wedge",
  "octave-shift",
  "pedal",
  "dashes",
  "bracket",
  "principal-voice",
]);
const isBetween = (type: string): boolean =>
  /^(continue|change|discontinue|resume|single|unmeasured|)$/.test(type);
const text = (node: XmlElement, name: string): string => textOf(child(node, name)).trim();
const idOf = (node: XmlElement): string => node.attributes.id ?? "";

function* walk(node: XmlElement): Generator<XmlElement> {
  yield node;
  for (const inner of childElements(node)) yield* walk(inner);
}

/** The ends of one line. */
interface Ends {
  open: number;
  where: string;
  /** Stops of this measure that found no start before them. */
  early: number;
}

function checkLines(part: XmlElement): Fault[] {
  const faults: Fault[] = [];
  const ends = new Map<string, Ends>();
  const tell = (key: string, id: string, fault: Fault["fault"]) => {
    const [name = "", ...rest] = key.split(" ");
    faults.push({ id, name, key: rest.join(" ").trim(), fault });
  };
  for (const measure of childrenNamed(part, "measure")) {
    for (const { key, type } of lineEnds(measure)) {
      const state = ends.get(key) ?? { open: 0, where: "", early: 0 };
      ends.set(key, takeEnd(state, type, idOf(measure)));
    }
    for (const [key, state] of ends) {
      for (; state.early > 0; state.early -= 1) tell(key, idOf(measure), "never started");
    }
  }
  for (const [key, { open, where }] of ends) if (open > 0) tell(key, where, "never stops");
  return faults;
}

function takeEnd(state: Ends, type: string, id: string): Ends {
  if (type === "stop")
    return state.open > 0 ? { ...state, open: state.open - 1 } : { ...state, early: state.early + 1 };
  if (state.early > 0) return { ...state, early: state.early - 1 };
  return { ...state, open: state.open + 1, where: id };
}

/** Every end of a line in a measure; of one note, what stops before what starts. */
function lineEnds(measure: XmlElement): { key: string; type: string }[] {
  return childElements(measure)
    .filter(({ name }) => name === "note" || name === "direction")
    .flatMap((event) =>
      [...walk(event)]
        .filter((mark) => lines.has(mark.name) && !isBetween(mark.attributes.type ?? ""))
        .map((mark) => {
          const voice = /tuplet|tremolo/.test(mark.name) ? text(event, "voice") : "";
          return {
            key: `${mark.name} ${mark.attributes.number ?? "1"} ${voice}`,
            type: mark.attributes.type ?? "",
          };
        })
        .sort((a, b) => Number(b.type === "stop") - Number(a.type === "stop")),
    );
}

const hasTie = (note: XmlElement, type: "start" | "stop"): boolean =>
  [...walk(note)].some(({ name, attributes }) => /^tied?$/.test(name) && attributes.type === type);

function checkTies(part: XmlElement): Fault[] {
  const faults: Fault[] = [];
  const open = new Map<string, { id: string; end: number }[]>();
  const tell = (id: string, fault: Fault["fault"]) => faults.push({ id, name: "tie", key: "", fault });
  for (const { note, at, end } of notesInTime(part)) {
    const pitch = child(note, "pitch");
    if (!pitch) continue;
    const key = ["step", "alter", "octave"].map((name) => text(pitch, name)).join(" ");
    const waiting = open.get(key) ?? [];
    if (hasTie(note, "stop")) {
      // Rather the neighbour: a start that hangs loose earlier in the piece stays the fault.
      const neighbour = waiting.findLastIndex((start) => Math.abs(start.end - at) < sameMoment);
      const [start] = waiting.splice(neighbour, 1);
      if (!start) tell(idOf(note), "never started");
    }
    if (hasTie(note, "start")) waiting.push({ id: idOf(note), end });
    open.set(key, waiting);
  }
  for (const { id } of [...open.values()].flat()) tell(id, "never stops");
  return faults;
}

function checkBeams(part: XmlElement): Fault[] {
  const faults: Fault[] = [];
  const open = new Map<string, string>();
  for (const { note } of notesInTime(part)) {
    if (child(note, "grace")) continue;
    const primary = childrenNamed(note, "beam").find(({ attributes }) => (attributes.number ?? "1") === "1");
    if (!primary) continue;
    const voice = text(note, "voice");
    const value = textOf(primary).trim();
    const isOpen = open.has(voice);
    const isWrong = value === "begin" ? isOpen : !isOpen && !value.endsWith("hook");
    if (isWrong) faults.push({ id: idOf(note), name: "beam", key: voice, fault: "out of place" });
    if (value === "begin") open.set(voice, idOf(note));
    if (value === "end") open.delete(voice);
  }
  for (const [voice, id] of open) faults.push({ id, name: "beam", key: voice, fault: "never stops" });
  return faults;
}

/** Quarter notes; plain numbers do here, where only neighbours are told apart. */
const sameMoment = 1e-6;

interface TimedNote {
  readonly note: XmlElement;
  /** From the start of the part, in quarter notes. */
  readonly at: number;
  readonly end: number;
}

/** The notes of a part, each measure in the order of time; chords with their first note. */
function* notesInTime(part: XmlElement): Generator<TimedNote> {
  let [start, divisions] = [0, 1];
  for (const measure of childrenNamed(part, "measure")) {
    const placed: TimedNote[] = [];
    let [cursor, chordAt, reach] = [start, start, start];
    for (const node of childElements(measure)) {
      if (node.name === "attributes") divisions = Number(text(node, "divisions")) || divisions;
      const duration = child(node, "grace") ? 0 : (Number(text(node, "duration")) || 0) / divisions;
      if (node.name === "backup") cursor -= duration;
      if (node.name === "forward") cursor += duration;
      if (node.name === "note") {
        const isMember = child(node, "chord") !== null;
        if (!isMember) chordAt = cursor;
        placed.push({ note: node, at: chordAt, end: chordAt + duration });
        if (!isMember) cursor += duration;
      }
      reach = Math.max(reach, cursor);
    }
    yield* placed.toSorted((a, b) => (Math.abs(a.at - b.at) < sameMoment ? 0 : a.at - b.at));
    start = reach;
  }
}
