import { type Chord, type ChordQuality, isSeventhChord, tonesOf } from "./chord-shapes";
import type { Key } from "./key";

/** What a chord is to a key, from the nearest to the most distant. */
export type ChordFunction =
  | "tonic"
  | "dominant"
  | "leading"
  | "diatonic"
  | "natural-minor"
  | "applied"
  | "borrowed"
  | "foreign";

const majorScale = new Set([0, 2, 4, 5, 7, 9, 11]);
const harmonicMinor = new Set([0, 2, 3, 5, 7, 8, 11]);
const naturalMinor = new Set([0, 2, 3, 5, 7, 8, 10]);
/** Either mode's tones: what a key borrows from its parallel without leaving. */
const borrowedByMajor = new Set([...naturalMinor, 11]);
const borrowedByMinor = new Set([0, 2, 3, 4, 5, 7, 8, 9, 10, 11]);
/** Degrees, in semitones above the tonic, that carry a chord which can have a dominant of its own. */
const tonicised = { major: new Set([2, 4, 5, 7, 9]), minor: new Set([3, 5, 7, 8, 10]) };

/** The degree that a dominant chord points to; null for chords of other kinds. */
function aimOf(degree: number, quality: ChordQuality): number | null {
  // An augmented triad is heard as a dominant with its fifth raised.
  if (quality === "major" || quality === "dominant-seventh" || quality === "augmented")
    return (degree + 5) % 12;
  const isLeading =
    quality === "diminished" || quality === "diminished-seventh" || quality === "half-diminished";
  return isLeading ? (degree + 1) % 12 : null;
}

/** The Neapolitan, and the German sixth, which sounds like a seventh chord on the lowered sixth degree. */
function isPreDominant(degree: number, quality: ChordQuality): boolean {
  return (quality === "dominant-seventh" && degree === 8) || (quality === "major" && degree === 1);
}

/** What a chord is to a key. Source: common practice. */
export function functionOf(chord: Chord, key: Key): ChordFunction {
  const degree = (chord.root - key.tonic + 12) % 12;
  const tones = tonesOf(chord).map((tone) => (tone - key.tonic + 12) % 12);
  const allIn = (scale: ReadonlySet<number>) => tones.every((tone) => scale.has(tone));
  if (degree === 0 && chord.quality === key.mode) return "tonic";
  if (degree === 7 && (chord.quality === "major" || chord.quality === "dominant-seventh")) return "dominant";
  if (allIn(key.mode === "major" ? majorScale : harmonicMinor)) return degree === 11 ? "leading" : "diatonic";
  if (key.mode === "minor" && allIn(naturalMinor)) return "natural-minor";
  if (degree === 7 && chord.quality === "augmented") return "leading";
  const aim = aimOf(degree, chord.quality);
  if (aim !== null && tonicised[key.mode].has(aim)) return "applied";
  if (isPreDominant(degree, chord.quality)) return "borrowed";
  return allIn(key.mode === "major" ? borrowedByMajor : borrowedByMinor) ? "borrowed" : "foreign";
}

/** Costs in units, see `hearing-costs.ts`. */
export interface FunctionCosts extends Readonly<Record<ChordFunction, number>> {
  /** On top, for chords of more than a triad and for the augmented triad: rarer than plain triads. */
  readonly seventh: number;
  readonly augmented: number;
}

/** How far a chord is from a key. */
export function chordInKeyCost(chord: Chord, key: Key, costs: FunctionCosts): number {
  const extra = isSeventhChord(chord) ? costs.seventh : chord.quality === "augmented" ? costs.augmented : 0;
  return costs[functionOf(chord, key)] + extra;
}
