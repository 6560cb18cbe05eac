import type { Window } from "./window";

/** Two slots of twelve pitch classes in one number. */
const words = 8;
const half = words / 2;

const bitCounts = Uint8Array.from({ length: 4096 }, (_, mask) => {
  let count = 0;
  for (let rest = mask; rest > 0; rest &= rest - 1) count += 1;
  return count;
});

const countIn = (word: number): number =>
  (bitCounts[word & 0xfff] as number) + (bitCounts[word >>> 12] as number);

const raise = (mask: number, semitones: number): number =>
  ((mask << semitones) | (mask >> (12 - semitones))) & 0xfff;

/** A window laid out so that it can be compared with very many others at all transpositions. */
export interface PackedWindow {
  readonly weight: number;
  /** Bits in the second half of the words, whatever the transposition. */
  readonly lateWeight: number;
  /** The words at each of twelve transpositions upward, one after the other. */
  readonly words: Uint32Array;
}

export function packWindow({ pitchClasses, weight }: Window): PackedWindow {
  const packed = new Uint32Array(12 * words);
  for (let semitones = 0; semitones < 12; semitones += 1) {
    for (let word = 0; word < words; word += 1) {
      const early = raise(pitchClasses[2 * word] as number, semitones);
      const late = raise(pitchClasses[2 * word + 1] as number, semitones);
      packed[semitones * words + word] = early | (late << 12);
    }
  }
  const lateWeight = packed.subarray(half, words).reduce((sum, word) => sum + countIn(word), 0);
  return { weight, lateWeight, words: packed };
}

/**
 * Likeness of two windows, the first raised by so many semitones, as `likenessOf` has it, if it is `least` or more;
 * 0 for less.
 */
export function likenessFrom(a: PackedWindow, b: PackedWindow, semitones: number, least: number): number {
  const start = semitones * words;
  // shared / (all − shared) ≥ least, solved for what is shared.
  const needed = (least * (a.weight + b.weight)) / (1 + least) - 1e-9;
  let shared = 0;
  for (let word = 0; word < half; word += 1)
    shared += countIn((a.words[start + word] as number) & (b.words[word] as number));
  if (shared + Math.min(a.lateWeight, b.lateWeight) < needed) return 0;
  for (let word = half; word < words; word += 1)
    shared += countIn((a.words[start + word] as number) & (b.words[word] as number));
  return shared < needed ? 0 : shared / (a.weight + b.weight - shared);
}
