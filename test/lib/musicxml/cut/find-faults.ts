import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { child, childElements, childrenNamed, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";

/**
 * What is wrong with the notation of a piece, as sentences with the ids of the measures, so that the faults of a cut
 * piece can be compared with those of its source. Written apart from the code under test and on another plan: one
 * pass in document order, plain numbers.
 */
export function findFaults(tree: MusicXmlTree): string[] {
  return tree.parts.flatMap((part) => [
    ...findOpenSpanners(part),
    ...findOpenTies(part),
    ...findBrokenBeams(part),
  ]);
}

const spannerNames = new Set(
  "slur glissando slide tuplet wavy-line tremolo wedge octave-shift pedal dashes bracket principal-voice".split(
    " ",
  ),
);

function* walk(node: XmlElement): Generator<XmlElement> {
  yield node;
  for (const inner of childElements(node)) yield* walk(inner);
}

const text = (node: XmlElement, name: string): string => textOf(child(node, name)).trim();

function findOpenSpanners(part: XmlElement): string[] {
  const faults: string[] = [];
  const open = new Map<string, { count: number; where: string }>();
  for (const measure of childrenNamed(part, "measure")) {
    const early = new Map<string, number>();
    const id = measure.attributes.id ?? "";
    for (const event of childElements(measure)) {
      const marks = event.name === "note" || event.name === "direction" ? [...walk(event)] : [];
      const sorted = marks
        .filter((mark) => spannerNames.has(mark.name) && mark.attributes.type)
        .sort((a, b) => Number(b.attributes.type === "stop") - Number(a.attributes.type === "stop"));
      for (const mark of sorted) {
        const voice = /tuplet|tremolo/.test(mark.name) ? text(event, "voice") : "";
        const key = `${mark.name} ${mark.attributes.number ?? "1"} ${voice}`;
        const state = open.get(key) ?? { count: 0, where: id };
        if (mark.attributes.type === "stop") {
          if (state.count > 0) open.set(key, { ...state, count: state.count - 1 });
          else early.set(key, (early.get(key) ?? 0) + 1);
        } else if (
          !/^(continue|change|discontinue|resume|single|unmeasured)$/.test(mark.attributes.type ?? "")
        ) {
          const waiting = early.get(key) ?? 0;
          if (waiting > 0) early.set(key, waiting - 1);
          else open.set(key, { count: state.count + 1, where: id });
        }
      }
    }
    for (const [key, count] of early) if (count > 0) faults.push(`${id}: ${key} stops and never started`);
  }
  for (const [key, { count, where }] of open) if (count > 0) faults.push(`${where}: ${key} never stops`);
  return faults;
}

const hasTie = (note: XmlElement, type: string): boolean =>
  [...walk(note)].some((node) => /^tied?$/.test(node.name) && node.attributes.type === type);

function findOpenTies(part: XmlElement): string[] {
  const faults: string[] = [];
  const open = new Map<string, string[]>();
  for (const measure of childrenNamed(part, "measure")) {
    const notes = placeNotes(measure).toSorted((a, b) => a.at - b.at);
    for (const { note } of notes) {
      const pitch = child(note, "pitch");
      if (!pitch) continue;
      const key = ["step", "alter", "octave"].map((name) => text(pitch, name)).join(" ");
      const waiting = open.get(key) ?? [];
      if (hasTie(note, "stop") && waiting.shift() === undefined) {
        faults.push(`${note.attributes.id}: tied to nothing before`);
      }
      if (hasTie(note, "start")) waiting.push(note.attributes.id ?? "");
      open.set(key, waiting);
    }
  }
  for (const ids of open.values()) for (const id of ids) faults.push(`${id}: tied to nothing after`);
  return faults;
}

/** Notes of a measure with their places in divisions. */
export function placeNotes(measure: XmlElement): { note: XmlElement; at: number }[] {
  const placed: { note: XmlElement; at: number }[] = [];
  let cursor = 0;
  let chordAt = 0;
  for (const node of childElements(measure)) {
    const duration = child(node, "grace") ? 0 : Number(text(node, "duration")) || 0;
    if (node.name === "backup") cursor -= duration;
    if (node.name === "forward") cursor += duration;
    if (node.name !== "note") continue;
    const isChord = child(node, "chord") !== null;
    if (!isChord) chordAt = cursor;
    placed.push({ note: node, at: chordAt });
    if (!isChord) cursor += duration;
  }
  return placed;
}

function findBrokenBeams(part: XmlElement): string[] {
  const faults: string[] = [];
  const open = new Set<string>();
  for (const measure of childrenNamed(part, "measure")) {
    for (const { note } of placeNotes(measure).toSorted((a, b) => a.at - b.at)) {
      if (child(note, "grace")) continue;
      for (const beam of childrenNamed(note, "beam")) {
        if ((beam.attributes.number ?? "1") !== "1") continue;
        const voice = text(note, "voice");
        const value = textOf(beam).trim();
        const isOpen = open.has(voice);
        if (value === "begin" ? isOpen : !isOpen && !value.endsWith("hook")) {
          faults.push(`${note.attributes.id}: beam ${value} out of place`);
        }
        if (value === "begin") open.add(voice);
        if (value === "end") open.delete(voice);
      }
    }
  }
  for (const voice of open) faults.push(`voice ${voice}: a beam never ends`);
  return faults;
}

/** What a reader of the page takes from each note: where it stands, its clef, key and metre, and its pitch. */
export interface NoteReading {
  readonly clef: string;
  readonly key: string;
  readonly metre: string;
  /** Whether key, accidentals of the bar and ties tell the pitch that is meant. */
  readonly isPitchClear: boolean;
  readonly pitch: string;
  readonly quarters: number;
}

/** Every note of a piece by its id, read in time order as a player would. */
export function readAsPlayer(tree: MusicXmlTree): Map<string, NoteReading> {
  const readings = new Map<string, NoteReading>();
  for (const part of tree.parts) readPart(part, readings);
  return readings;
}

function readPart(part: XmlElement, readings: Map<string, NoteReading>): void {
  let divisions = 1;
  const held = new Map<string, XmlElement>();
  for (const measure of childrenNamed(part, "measure")) {
    const shown = new Map<string, number>();
    // A measure is read by columns: everything at one place before anything later.
    const columns: { at: number; node: XmlElement; divisions: number }[] = [];
    let cursor = 0;
    let chordAt = 0;
    for (const node of childElements(measure)) {
      const duration = child(node, "grace") ? 0 : Number(text(node, "duration")) || 0;
      if (node.name === "attributes" && child(node, "divisions")) divisions = Number(text(node, "divisions"));
      if (node.name === "backup") cursor -= duration / divisions;
      if (node.name === "forward") cursor += duration / divisions;
      if (node.name === "attributes") columns.push({ at: cursor, node, divisions });
      if (node.name !== "note") continue;
      const isChord = child(node, "chord") !== null;
      if (!isChord) chordAt = cursor;
      columns.push({ at: chordAt, node, divisions });
      if (!isChord) cursor += duration / divisions;
    }
    for (const { node, divisions: ticks } of columns.toSorted((a, b) => Math.round((a.at - b.at) * 1e6))) {
      if (node.name === "attributes") hold(held, node);
      else readings.set(node.attributes.id ?? "", readNote(node, held, shown, ticks));
    }
  }
}

function hold(held: Map<string, XmlElement>, attributes: XmlElement): void {
  for (const attribute of childElements(attributes)) {
    const number = attribute.attributes.number;
    if (attribute.name === "key" && number === undefined) {
      for (const name of [...held.keys()]) if (name.startsWith("key")) held.delete(name);
    }
    held.set(`${attribute.name}${number ?? (attribute.name === "clef" ? "1" : "")}`, attribute);
  }
}

const flat = (node: XmlElement | undefined): string =>
  node
    ? childElements(node)
        .map((each) => `${each.name}=${textOf(each).trim()}`)
        .join(" ")
    : "none";

function readNote(
  note: XmlElement,
  held: ReadonlyMap<string, XmlElement>,
  shown: Map<string, number>,
  divisions: number,
): NoteReading {
  const staff = text(note, "staff") || "1";
  const key = held.get(`key${staff}`) ?? held.get("key");
  const pitch = child(note, "pitch");
  const step = pitch ? text(pitch, "step") : "";
  const alter = pitch ? Number(text(pitch, "alter")) || 0 : 0;
  const place = pitch ? `${staff} ${step}${text(pitch, "octave")}` : "";
  const fifths = key ? Number(text(key, "fifths")) || 0 : 0;
  const inKey =
    fifths > 0 ? Number("FCGDAEB".indexOf(step) < fifths) : -Number("BEADGCF".indexOf(step) < -fifths);
  const isPitchClear =
    !pitch ||
    child(note, "accidental") !== null ||
    hasTie(note, "stop") ||
    (shown.get(place) ?? inKey) === alter;
  if (pitch && child(note, "accidental")) shown.set(place, alter);
  return {
    clef: flat(held.get(`clef${staff}`)),
    key: flat(key),
    metre: flat(held.get("time")),
    isPitchClear,
    pitch: pitch ? `${step}${alter}${text(pitch, "octave")}` : "",
    quarters: child(note, "grace") ? 0 : (Number(text(note, "duration")) || 0) / divisions,
  };
}
