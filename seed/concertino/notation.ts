import type { Articulation, Event, Line, Mark, NoteValue, ValueName } from "./event";
import { barRest, plainEvent } from "./event";
import { midiOf, type Pitch, STEPS, type Step, staffPosition } from "./pitch";

/**
 * A text notation for one voice.
 *
 * Bars are divided by `|`. A token is a note (`c#5`), a chord (`[d4 f a]`) or a rest (`r`; `R` fills the bar).
 * Accidentals are always written; a note without an octave takes the one nearest to the note before it, inside a
 * chord the next one above. `:` gives the value, kept until changed: `w h q e s t`, a dot, `3` for triplets.
 * Before a note: `(` opens a slur, `{c5 d5}` are grace notes. After it: `)` closes a slur, `~` ties, `'` staccato,
 * `>` accent, `_` tenuto, `^` strong accent, `@` fermata, `%` trill, `*4` four times. Alone: `!mf` dynamic, `!<` `!>` `!.` hairpins,
 * `"dolce"` words; they belong to the next note.
 */
export function readLine(text: string, barTicks: (bar: number) => number): Line {
  const reader = newReader();
  const line = text.split("|").map((bar, i) => readBar(bar, barTicks(i), reader));
  if (reader.marks.length > 0) throw new RangeError(`A mark stands after the last note of "${text}"`);
  return line;
}

interface Reader {
  value: NoteValue;
  last: Pitch;
  marks: Mark[];
}

function newReader(): Reader {
  return {
    value: { name: "quarter", dots: 0, triplet: false },
    last: { step: "C", alter: 0, octave: 5 },
    marks: [],
  };
}

const TOKEN = /"[^"]*"|(?:[^\s[{]*\{[^}]*\})?[^\s["]*(?:\[[^\]]*\])?\S*/g;

function readBar(text: string, ticks: number, reader: Reader): Event[] {
  const events: Event[] = [];
  for (const token of text.match(TOKEN) ?? []) {
    if (token === "") continue;
    const mark = readMark(token);
    if (mark) reader.marks.push(mark);
    else events.push(...readEvents(token, ticks, reader));
  }
  const sum = events.reduce((total, event) => total + event.ticks, 0);
  if (sum !== ticks) throw new RangeError(`Bar "${text.trim()}" holds ${sum} ticks instead of ${ticks}`);
  return events;
}

function readMark(token: string): Mark | undefined {
  if (token.startsWith('"')) return { kind: "words", text: token.slice(1, -1) };
  if (token === "!<") return { kind: "wedge", type: "crescendo" };
  if (token === "!>") return { kind: "wedge", type: "diminuendo" };
  if (token === "!.") return { kind: "wedge", type: "stop" };
  if (token.startsWith("!")) return { kind: "dynamic", text: token.slice(1) };
  return undefined;
}

const EVENT = /^(\()?(?:\{([^}]+)\})?(\[[^\]]+\]|[a-g][#b]*\d?|r|R)(?::([whqest])(\.)?(3)?)?([~'>_^@%)]*)$/;
const VALUES: Record<string, ValueName> = {
  w: "whole",
  h: "half",
  q: "quarter",
  e: "eighth",
  s: "16th",
  t: "32nd",
};
const ARTICULATIONS: Record<string, Articulation> = {
  "'": "staccato",
  ">": "accent",
  _: "tenuto",
  "^": "strong-accent",
};

function readEvents(token: string, barTicks: number, reader: Reader): Event[] {
  const [body = "", times = "1"] = token.split("*");
  const event = readEvent(body, barTicks, reader);
  return Array.from({ length: Number(times) }, (_, i) => (i === 0 ? event : { ...event, marks: [] }));
}

function readEvent(token: string, barTicks: number, reader: Reader): Event {
  const match = EVENT.exec(token);
  if (!match) throw new RangeError(`Not a note, chord or rest: "${token}"`);
  const [, slur, graces, body = "", letter, dot, triplet, suffix = ""] = match;
  if (letter) {
    reader.value = { name: valueNamed(letter), dots: dot ? 1 : 0, triplet: triplet !== undefined };
  }
  const graceNotes = graces ? graces.split(/\s+/).map((name) => readPitch(name, reader)) : [];
  const marks = reader.marks.splice(0);
  if (body === "R") return { ...barRest(barTicks), marks };
  return {
    ...plainEvent(reader.value, readPitches(body, reader)),
    slurStart: slur !== undefined,
    slurStop: suffix.includes(")"),
    tied: suffix.includes("~"),
    fermata: suffix.includes("@"),
    trill: suffix.includes("%"),
    articulations: [...suffix].flatMap((sign) => ARTICULATIONS[sign] ?? []),
    graces: graceNotes,
    marks,
  };
}

function valueNamed(letter: string): ValueName {
  const name = VALUES[letter];
  if (!name) throw new RangeError(`No note value "${letter}"`);
  return name;
}

function readPitches(body: string, reader: Reader): Pitch[] {
  if (body === "r") return [];
  if (!body.startsWith("[")) return [readPitch(body, reader)];
  const names = body.slice(1, -1).trim().split(/\s+/);
  const first = readPitch(names[0] ?? "", reader);
  const chord = [first];
  for (const name of names.slice(1)) chord.push(readPitchAbove(name, chord.at(-1) ?? first));
  return chord;
}

function readPitch(name: string, reader: Reader): Pitch {
  const { step, alter, octave } = splitName(name);
  const pitch = { step, alter, octave: octave ?? nearestOctave(step, reader.last) };
  reader.last = pitch;
  return pitch;
}

function readPitchAbove(name: string, below: Pitch): Pitch {
  const { step, alter, octave } = splitName(name);
  if (octave !== undefined) return { step, alter, octave };
  const same = { step, alter, octave: below.octave };
  return midiOf(same) > midiOf(below) ? same : { ...same, octave: below.octave + 1 };
}

function splitName(name: string): { step: Step; alter: number; octave: number | undefined } {
  const match = /^([a-g])(#*|b*)(\d)?$/.exec(name);
  const step = STEPS.find((letter) => letter === match?.[1]?.toUpperCase());
  if (!match || !step) throw new RangeError(`Not a pitch: "${name}"`);
  const signs = match[2] ?? "";
  const alter = signs.startsWith("b") ? -signs.length : signs.length;
  return { step, alter, octave: match[3] ? Number(match[3]) : undefined };
}

function nearestOctave(step: Step, last: Pitch): number {
  const octaves = [last.octave - 1, last.octave, last.octave + 1];
  const distance = (octave: number) =>
    Math.abs(staffPosition({ step, alter: 0, octave }) - staffPosition(last));
  return octaves.reduce((best, octave) => (distance(octave) < distance(best) ? octave : best));
}
