import type { SlurEnd, Tremolo } from "@/lib/score/note";
import type { Pitch, Step } from "@/lib/score/pitch";
import { readLimits } from "./limits";
import { childElements, textOf, type XmlElement } from "./xml-tree";

/** A `note` element as it stands, before it has a place in time. */
export interface NoteElement {
  kind: "note" | "rest";
  isChordMember: boolean;
  isGrace: boolean;
  isCue: boolean;
  isHidden: boolean;
  /** `measure="yes"`, `"no"`, or null when the rest does not say. */
  wholeBar: "yes" | "no" | null;
  /** Null for a rest and an unpitched note. */
  pitch: Pitch | null;
  /** What could not be read of the pitch. */
  pitchFault: "pitch" | "alter" | null;
  duration: string | null;
  voice: string;
  staff: string | null;
  type: string | null;
  dots: number;
  actual: number;
  normal: number;
  tieStart: boolean;
  tieStop: boolean;
  tremolo: Tremolo | null;
  articulations: string[];
  ornaments: string[];
  hasFermata: boolean;
  isArpeggiated: boolean;
  slurs: SlurEnd[];
  dynamics: string[];
  lyrics: XmlElement[];
}

/** Characters of a voice's name: nearly always a number. */
const longestVoice = 40;

const nothing: readonly never[] = [];

/** Reads a `note` in one walk over its children. */
export function readNoteElement(element: XmlElement): NoteElement {
  const note = emptyNote(element.attributes["print-object"] === "no");
  for (const node of element.children) if (node.kind === "element") readChild(node, note);
  return note;
}

function emptyNote(isHidden: boolean): NoteElement {
  return {
    kind: "note",
    isChordMember: false,
    isGrace: false,
    isCue: false,
    isHidden,
    wholeBar: null,
    pitch: null,
    pitchFault: null,
    duration: null,
    voice: "1",
    staff: null,
    type: null,
    dots: 0,
    actual: 1,
    normal: 1,
    tieStart: false,
    tieStop: false,
    tremolo: null,
    // Shared while empty, as most stay so.
    articulations: nothing as unknown as string[],
    ornaments: nothing as unknown as string[],
    hasFermata: false,
    isArpeggiated: false,
    slurs: nothing as unknown as SlurEnd[],
    dynamics: nothing as unknown as string[],
    lyrics: nothing as unknown as XmlElement[],
  };
}

function readChild(node: XmlElement, note: NoteElement): void {
  switch (node.name) {
    case "pitch":
      readPitch(node, note);
      break;
    case "rest":
      note.kind = "rest";
      note.wholeBar = readYesNo(node.attributes.measure);
      break;
    case "chord":
      note.isChordMember = true;
      break;
    case "grace":
      note.isGrace = true;
      break;
    case "cue":
      note.isCue = true;
      break;
    case "duration":
      note.duration = textOf(node);
      break;
    case "voice":
      note.voice = textOf(node).trim().slice(0, longestVoice) || "1";
      break;
    case "staff":
      note.staff = textOf(node);
      break;
    case "type":
      note.type = textOf(node).trim();
      if (node.attributes.size === "cue") note.isCue = true;
      break;
    case "dot":
      note.dots += 1;
      break;
    case "time-modification":
      readTimeModification(node, note);
      break;
    case "tie":
      readTie(node.attributes.type, note);
      break;
    case "notations":
      readNotations(node, note);
      break;
    case "lyric":
      note.lyrics = withMore(note.lyrics, node);
  }
}

/** A new list, as empty ones are shared; no longer than any note can carry. */
function withMore<T>(list: readonly T[], ...more: readonly T[]): T[] {
  return [...list, ...more].slice(0, readLimits.signsPerNote);
}

function namesIn(element: XmlElement): string[] {
  return childElements(element)
    .slice(0, readLimits.signsPerNote)
    .map(({ name }) => name);
}

function readYesNo(value: string | undefined): "yes" | "no" | null {
  return value === "yes" || value === "no" ? value : null;
}

const isStep = (text: string): text is Step => /^[A-G]$/.test(text);

/** MusicXML's octaves are 0 to 9; a piece of paper has no more. */
function readPitch(element: XmlElement, note: NoteElement): void {
  let step = "";
  let alter = 0;
  let octave = Number.NaN;
  for (const part of childElements(element)) {
    const text = textOf(part).trim();
    if (part.name === "step") step = text;
    else if (part.name === "octave") octave = text === "" ? Number.NaN : Number(text);
    else if (part.name === "alter") alter = text === "" ? Number.NaN : Number(text);
  }
  if (!isStep(step) || !Number.isInteger(octave) || octave < 0 || octave > 9) {
    note.pitchFault = "pitch";
    return;
  }
  const isAlterSane = Math.abs(alter) <= 6;
  if (!isAlterSane) note.pitchFault = "alter";
  note.pitch = { step, alter: isAlterSane ? alter + 0 : 0, octave };
}

function readTimeModification(element: XmlElement, note: NoteElement): void {
  for (const part of childElements(element)) {
    if (part.name === "actual-notes") note.actual = Number(textOf(part));
    else if (part.name === "normal-notes") note.normal = Number(textOf(part));
  }
}

function readTie(type: string | undefined, note: NoteElement): void {
  if (type === "start") note.tieStart = true;
  else if (type === "stop") note.tieStop = true;
  else if (type === "continue") {
    note.tieStart = true;
    note.tieStop = true;
  }
}

function readNotations(element: XmlElement, note: NoteElement): void {
  for (const notation of childElements(element)) {
    switch (notation.name) {
      case "tied":
        readTie(notation.attributes.type, note);
        break;
      case "slur":
        readSlur(notation, note);
        break;
      case "fermata":
        note.hasFermata = true;
        break;
      case "arpeggiate":
        note.isArpeggiated = true;
        break;
      case "articulations":
        note.articulations = withMore(note.articulations, ...namesIn(notation));
        break;
      case "ornaments":
        readOrnaments(notation, note);
        break;
      case "dynamics":
        note.dynamics = withMore(note.dynamics, ...readDynamics(notation));
    }
  }
}

function readSlur({ attributes }: XmlElement, note: NoteElement): void {
  const { type } = attributes;
  if (type !== "start" && type !== "stop" && type !== "continue") return;
  note.slurs = withMore(note.slurs, { number: readLevel(attributes.number), type });
}

/** MusicXML `number-level`: 1 to 16, 1 when not said. */
export function readLevel(text: string | undefined): number {
  const level = Number(text ?? 1);
  return Number.isInteger(level) && level >= 1 && level <= 16 ? level : 1;
}

function readOrnaments(element: XmlElement, note: NoteElement): void {
  for (const ornament of childElements(element)) {
    if (ornament.name === "tremolo") note.tremolo = readTremolo(ornament);
    else if (ornament.name !== "accidental-mark") note.ornaments = withMore(note.ornaments, ornament.name);
  }
}

function readTremolo(element: XmlElement): Tremolo {
  const { type } = element.attributes;
  const marks = Number(textOf(element));
  return {
    type: type === "start" || type === "stop" || type === "unmeasured" ? type : "single",
    marks: Number.isInteger(marks) && marks >= 0 && marks <= 8 ? marks : 3,
  };
}

/** Each mark by its MusicXML element name; a mark of the file's own by its text. */
export function readDynamics(element: XmlElement): string[] {
  return childElements(element)
    .slice(0, readLimits.signsPerNote)
    .flatMap((mark) => {
      if (mark.name !== "other-dynamics") return [mark.name];
      const text = textOf(mark).trim();
      return text === "" ? [] : [text];
    });
}
