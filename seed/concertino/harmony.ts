import { BAR, QUARTER } from "./event";
import { type Interval, midiOf, type Pitch, STEPS, type Step, transposePitch } from "./pitch";

/** A chord with spelled tones; `tones[0]` is the root, `tones[1]` the third. Octaves mean nothing here. */
export interface Chord {
  readonly symbol: string;
  readonly tones: readonly Pitch[];
  /** Pitch class that must resolve upward and is not doubled: third of a dominant, root of a diminished chord. */
  readonly leadingTone: number | undefined;
}

/** A chord held for some ticks, at an onset counted from the start of its bar. */
export interface Segment {
  readonly bar: number;
  readonly onset: number;
  readonly ticks: number;
  readonly chord: Chord;
}

const third = { major: { diatonic: 2, chromatic: 4 }, minor: { diatonic: 2, chromatic: 3 } };
const fifth = { perfect: { diatonic: 4, chromatic: 7 }, diminished: { diatonic: 4, chromatic: 6 } };
const seventh = {
  major: { diatonic: 6, chromatic: 11 },
  minor: { diatonic: 6, chromatic: 10 },
  diminished: { diatonic: 6, chromatic: 9 },
};
const QUALITIES: Record<string, Interval[]> = {
  "": [third.major, fifth.perfect],
  m: [third.minor, fifth.perfect],
  "7": [third.major, fifth.perfect, seventh.minor],
  m7: [third.minor, fifth.perfect, seventh.minor],
  maj7: [third.major, fifth.perfect, seventh.major],
  m7b5: [third.minor, fifth.diminished, seventh.minor],
  o: [third.minor, fifth.diminished],
  o7: [third.minor, fifth.diminished, seventh.diminished],
};

/**
 * Reads a harmony plan such as `Dm | Gm A7 | Dm:h. A7:q`: bars divided by `|`, chords of a bar of equal length
 * unless a value (`q`, `h`, `h.`) is given.
 */
export function readHarmony(text: string): Segment[] {
  return text.split("|").flatMap((bar, i) => readHarmonyBar(bar, i));
}

function readHarmonyBar(text: string, bar: number): Segment[] {
  const names = text.trim().split(/\s+/);
  let onset = 0;
  const segments = names.map((name) => {
    const [symbol = "", value] = name.split(":");
    const ticks = value ? ticksNamed(value) : BAR / names.length;
    const segment = { bar, onset, ticks, chord: readChord(symbol) };
    onset += ticks;
    return segment;
  });
  if (onset !== BAR) throw new RangeError(`Harmony "${text}" does not fill its bar`);
  return segments;
}

function ticksNamed(value: string): number {
  const ticks: Record<string, number> = { q: QUARTER, h: 2 * QUARTER, "h.": 3 * QUARTER, w: BAR };
  const found = ticks[value];
  if (found === undefined) throw new RangeError(`No chord length "${value}"`);
  return found;
}

/** Reads one chord symbol: root, accidental, quality. */
export function readChord(symbol: string): Chord {
  const match = /^([A-G])([#b]?)(.*)$/.exec(symbol);
  const quality = QUALITIES[match?.[3] ?? "none"];
  if (!match || !quality) throw new RangeError(`Not a chord: "${symbol}"`);
  const alter = match[2] === "#" ? 1 : match[2] === "b" ? -1 : 0;
  const root: Pitch = { step: stepNamed(match[1]), alter, octave: 4 };
  const tones = [root, ...quality.map((interval) => transposePitch(root, interval))];
  return { symbol, tones, leadingTone: leadingToneOf(match[3] ?? "", tones) };
}

function leadingToneOf(quality: string, tones: readonly Pitch[]): number | undefined {
  const tone = quality === "7" ? tones[1] : quality === "o" || quality === "o7" ? tones[0] : undefined;
  return tone && midiOf(tone) % 12;
}

function stepNamed(letter: string | undefined): Step {
  const step = STEPS.find((candidate) => candidate === letter);
  if (!step) throw new RangeError(`Not a letter name: "${letter}"`);
  return step;
}

/** Whether a sounding pitch belongs to the chord. */
export function isChordTone(chord: Chord, midi: number): boolean {
  return chord.tones.some((tone) => midiOf(tone) % 12 === midi % 12);
}
