import type { Interval } from "./pitch";
import type { VoiceRange } from "./voicing";

export const INSTRUMENT_IDS = [
  "fl",
  "ob",
  "fg",
  "hn",
  "timp",
  "solo",
  "vl1",
  "vl2",
  "vla",
  "vc",
  "cb",
] as const;
export type InstrumentId = (typeof INSTRUMENT_IDS)[number];

/** A staff of the full score. */
export interface Instrument {
  readonly name: string;
  readonly abbreviation: string;
  /** MusicXML 4.0 instrument sound. */
  readonly sound: string;
  /** General MIDI program, counted from 1. */
  readonly program: number;
  readonly clef: { readonly sign: "G" | "C" | "F"; readonly line: number };
  /** Lowest and highest sounding MIDI number. Source: common orchestration tables. */
  readonly range: readonly [number, number];
  /** Written pitch lies this far above sounding pitch. */
  readonly writtenAbove: Interval;
  readonly players: 1 | 2 | "section";
  /** Where its inner voices lie, highest first; one per player of a pair. */
  readonly inner: readonly VoiceRange[];
  /** Where the three voices of a broken chord lie, highest first. */
  readonly broken?: readonly VoiceRange[];
}

const concert: Interval = { diatonic: 0, chromatic: 0 };
const treble = { sign: "G", line: 2 } as const;
const alto = { sign: "C", line: 3 } as const;
const bass = { sign: "F", line: 4 } as const;

export const INSTRUMENTS: Record<InstrumentId, Instrument> = {
  fl: {
    name: "2 Flutes",
    abbreviation: "Fl.",
    sound: "wind.flutes.flute",
    program: 74,
    clef: treble,
    range: [60, 98],
    writtenAbove: concert,
    players: 2,
    inner: [
      { low: 74, high: 88 },
      { low: 69, high: 83 },
    ],
  },
  ob: {
    name: "2 Oboes",
    abbreviation: "Ob.",
    sound: "wind.reed.oboe",
    program: 69,
    clef: treble,
    range: [58, 93],
    writtenAbove: concert,
    players: 2,
    inner: [
      { low: 67, high: 80 },
      { low: 62, high: 76 },
    ],
  },
  fg: {
    name: "2 Bassoons",
    abbreviation: "Fag.",
    sound: "wind.reed.bassoon",
    program: 71,
    clef: bass,
    range: [34, 75],
    writtenAbove: concert,
    players: 2,
    inner: [
      { low: 50, high: 64 },
      { low: 45, high: 60 },
    ],
  },
  hn: {
    name: "2 Horns in F",
    abbreviation: "Cor.",
    sound: "brass.french-horn",
    program: 61,
    clef: treble,
    range: [35, 77],
    writtenAbove: { diatonic: 4, chromatic: 7 },
    players: 2,
    inner: [
      { low: 58, high: 70 },
      { low: 53, high: 66 },
    ],
  },
  timp: {
    name: "Timpani in A, D, F",
    abbreviation: "Timp.",
    sound: "drum.timpani",
    program: 48,
    clef: bass,
    range: [38, 60],
    writtenAbove: concert,
    players: 1,
    inner: [],
  },
  solo: {
    name: "Clarinet in B♭",
    abbreviation: "Cl.",
    sound: "wind.reed.clarinet.bflat",
    program: 72,
    clef: treble,
    range: [50, 94],
    writtenAbove: { diatonic: 1, chromatic: 2 },
    players: 1,
    inner: [],
  },
  vl1: {
    name: "Violin I",
    abbreviation: "Vl. I",
    sound: "strings.violin",
    program: 41,
    clef: treble,
    range: [55, 105],
    writtenAbove: concert,
    players: "section",
    inner: [{ low: 65, high: 77 }],
  },
  vl2: {
    name: "Violin II",
    abbreviation: "Vl. II",
    sound: "strings.violin",
    program: 41,
    clef: treble,
    range: [55, 105],
    writtenAbove: concert,
    players: "section",
    inner: [{ low: 60, high: 73 }],
    broken: [
      { low: 67, high: 74 },
      { low: 62, high: 69 },
      { low: 57, high: 65 },
    ],
  },
  vla: {
    name: "Viola",
    abbreviation: "Vla.",
    sound: "strings.viola",
    program: 42,
    clef: alto,
    range: [48, 88],
    writtenAbove: concert,
    players: "section",
    inner: [{ low: 53, high: 67 }],
    broken: [
      { low: 57, high: 64 },
      { low: 52, high: 60 },
      { low: 48, high: 57 },
    ],
  },
  vc: {
    name: "Violoncello",
    abbreviation: "Vc.",
    sound: "strings.cello",
    program: 43,
    clef: bass,
    range: [36, 81],
    writtenAbove: concert,
    players: "section",
    inner: [{ low: 48, high: 62 }],
  },
  cb: {
    name: "Double Bass",
    abbreviation: "Cb.",
    sound: "strings.contrabass",
    program: 44,
    clef: bass,
    range: [28, 60],
    writtenAbove: { diatonic: 7, chromatic: 12 },
    players: "section",
    inner: [],
  },
};

/** The drums, as MIDI numbers: A2, D3, F3. */
export const DRUMS: readonly number[] = [45, 50, 53];
