import type { Note, Rest } from "@/lib/score/note";
import type { Pitch } from "@/lib/score/pitch";
import { type Quarters, scaleQuarters, writeQuarters } from "@/lib/score/quarters";
import { findNoteValue, type NoteValue } from "./note-type";
import { element, type XmlElement } from "./xml-tree";

const flag = (name: string, is: boolean): XmlElement[] => (is ? [element(name)] : []);
const text = (name: string, value: string | number): XmlElement => element(name, {}, `${value}`);

/** @param count of divisions that a time takes. */
export function writeNote(note: Note, count: (time: Quarters) => number, hasStaves: boolean): XmlElement {
  const tie = (name: string) => [
    ...(note.tieStop ? [element(name, { type: "stop" })] : []),
    ...(note.tieStart ? [element(name, { type: "start" })] : []),
  ];
  const duration = note.isGrace ? [] : [text("duration", count(note.duration))];
  return element(
    "note",
    attributesOf(note),
    ...flag("grace", note.isGrace),
    ...flag("cue", note.isCue),
    ...flag("chord", note.isChordMember),
    note.written === null ? element("unpitched") : writePitch(note.written),
    ...duration,
    ...(note.isCue ? [] : tie("tie")),
    text("voice", note.voice),
    ...writeValue(note.isGrace ? graceValue : drawnValue(note)),
    ...writeStaff(note.staff, hasStaves),
    ...writeNotations(note, tie("tied")),
    ...(note.lyric === null ? [] : [element("lyric", { number: "1" }, text("text", note.lyric))]),
  );
}

export function writeRest(rest: Rest, count: (time: Quarters) => number, hasStaves: boolean): XmlElement {
  const value = rest.isWholeBar ? null : drawnAs(rest.duration);
  // Without a type a rest would be taken for the bar's own.
  const measure = rest.isWholeBar ? "yes" : "no";
  return element(
    "note",
    attributesOf(rest),
    ...flag("cue", rest.isCue),
    element("rest", rest.isWholeBar || value === null ? { measure } : {}),
    text("duration", count(rest.duration)),
    text("voice", rest.voice),
    ...writeValue(value),
    ...writeStaff(rest.staff, hasStaves),
    ...(rest.hasFermata ? [element("notations", {}, element("fermata"))] : []),
  );
}

function attributesOf({ id, isHidden }: Note | Rest): Record<string, string> {
  return isHidden ? { "print-object": "no", id } : { id };
}

function writePitch({ step, alter, octave }: Pitch): XmlElement {
  const altered = alter === 0 ? [] : [text("alter", alter)];
  return element("pitch", {}, text("step", step), ...altered, text("octave", octave));
}

const graceValue: NoteValue = { type: "eighth", dots: 0, actual: 1, normal: 1 };
const values = new Map<string, NoteValue | null>();

function drawnAs(duration: Quarters): NoteValue | null {
  const key = writeQuarters(duration);
  const known = values.get(key);
  if (known !== undefined) return known;
  const value = duration.num > 0 ? findNoteValue(duration) : null;
  if (values.size < 1000) values.set(key, value);
  return value;
}

/** A tremolo says what tuplet it stands in; other notes are drawn by their length. */
function drawnValue({ duration, tremolo }: Note): NoteValue | null {
  if (!tremolo?.tuplet) return drawnAs(duration);
  const { actual, normal } = tremolo.tuplet;
  const value = drawnAs(scaleQuarters(duration, actual, normal));
  return value?.actual === value?.normal ? value && { ...value, actual, normal } : drawnAs(duration);
}

function writeValue(value: NoteValue | null): XmlElement[] {
  if (value === null) return [];
  const dots = Array.from({ length: value.dots }, () => element("dot"));
  const isTuplet = value.actual !== value.normal;
  const tuplet = [text("actual-notes", value.actual), text("normal-notes", value.normal)];
  return [
    text("type", value.type),
    ...dots,
    ...(isTuplet ? [element("time-modification", {}, ...tuplet)] : []),
  ];
}

function writeStaff(staff: number, hasStaves: boolean): XmlElement[] {
  return hasStaves ? [text("staff", staff)] : [];
}

function writeNotations(note: Note, tied: readonly XmlElement[]): XmlElement[] {
  const { tremolo } = note;
  const ornaments = [
    ...note.ornaments.map((name) => element(name, name === "wavy-line" ? { type: "start" } : {})),
    ...(tremolo === null ? [] : [element("tremolo", { type: tremolo.type }, `${tremolo.marks}`)]),
  ];
  const notations = [
    ...tied,
    ...note.slurs.map(({ type, number }) => element("slur", { type, number: `${number}` })),
    ...(ornaments.length === 0 ? [] : [element("ornaments", {}, ...ornaments)]),
    ...(note.articulations.length === 0
      ? []
      : [element("articulations", {}, ...note.articulations.map((name) => element(name)))]),
    ...flag("fermata", note.hasFermata),
    ...flag("arpeggiate", note.isArpeggiated),
  ];
  return notations.length === 0 ? [] : [element("notations", {}, ...notations)];
}
