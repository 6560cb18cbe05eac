import type { Bar } from "@/lib/score/bar";
import { compareQuarters, type Quarters, subtractQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { findSoundingNotes, type Listening, type SoundingNote } from "./sounding-notes";

/** Slots in a bar. */
export const slotCount = 16;

/** What sounds in a bar: for each sixteenth of its length a mask of pitch classes (bit `p` for pitch class `p`). */
export interface BarFingerprint {
  readonly barIndex: number;
  readonly length: Quarters;
  readonly slots: Uint16Array;
  /** Bits set in all slots together; 0 for a silent bar. */
  readonly weight: number;
}

/** Bits set in each 12-bit mask. */
const bitCounts = Uint8Array.from({ length: 4096 }, (_, mask) => {
  let count = 0;
  for (let rest = mask; rest > 0; rest &= rest - 1) count += 1;
  return count;
});

/** The mask with every pitch class raised by so many semitones, 0 to 11. */
export function rotateMask(mask: number, semitones: number): number {
  return ((mask << semitones) | (mask >> (12 - semitones))) & 0xfff;
}

/** The slot in which a time lies, counted in sixteenths of the bar: whole numbers only. */
function slotAt(bar: Bar, time: Quarters, rounding: "down" | "up"): number {
  const offset = subtractQuarters(time, bar.start);
  const exact = (offset.num * bar.length.den * slotCount) / (offset.den * bar.length.num);
  const slot = rounding === "down" ? Math.floor(exact) : Math.ceil(exact);
  return Math.min(slotCount, Math.max(0, slot));
}

function markNote(slots: Uint16Array, bar: Bar, note: SoundingNote): void {
  const from = slotAt(bar, note.onset, "down");
  const to = Math.max(slotAt(bar, note.end, "up"), from + 1);
  for (let slot = from; slot < Math.min(to, slotCount); slot += 1) {
    slots[slot] = (slots[slot] as number) | (1 << note.pitchClass);
  }
}

function weightOf(slots: Uint16Array): number {
  return slots.reduce((sum, mask) => sum + (bitCounts[mask] as number), 0);
}

/** One fingerprint for each bar, at sounding pitch. */
export function fingerprintBars(score: Score, listening: Listening = {}): BarFingerprint[] {
  const slots = score.bars.map(() => new Uint16Array(slotCount));
  const notes = findSoundingNotes(score, listening);
  let first = 0;
  for (const note of notes) {
    const isOver = (bar: Bar | undefined, next: Bar | undefined) =>
      bar !== undefined && next !== undefined && compareQuarters(next.start, note.onset) <= 0;
    while (isOver(score.bars[first], score.bars[first + 1])) first += 1;
    for (let index = first; index < score.bars.length; index += 1) {
      const bar = score.bars[index] as Bar;
      if (compareQuarters(bar.start, note.end) >= 0) break;
      if (bar.length.num > 0) markNote(slots[index] as Uint16Array, bar, note);
    }
  }
  return score.bars.map((bar, index) => {
    const own = slots[index] as Uint16Array;
    return { barIndex: bar.index, length: bar.length, slots: own, weight: weightOf(own) };
  });
}

/**
 * How alike two bars are when the first is transposed: shared bits over all bits, slot by slot (Jaccard's index), 0 to
 * 1; 0 when both are silent.
 *
 * @param semitones upward, 0 to 11.
 */
export function barSimilarity(a: BarFingerprint, b: BarFingerprint, semitones: number): number {
  let shared = 0;
  for (let slot = 0; slot < slotCount; slot += 1) {
    const rotated = rotateMask(a.slots[slot] as number, semitones);
    shared += bitCounts[rotated & (b.slots[slot] as number)] as number;
  }
  const all = a.weight + b.weight - shared;
  return all === 0 ? 0 : shared / all;
}

/** Similarity at the best of the twelve transpositions; of equal ones the smallest upward. */
export function bestRotation(
  a: BarFingerprint,
  b: BarFingerprint,
): { semitones: number; similarity: number } {
  let best = { semitones: 0, similarity: barSimilarity(a, b, 0) };
  for (let semitones = 1; semitones < 12; semitones += 1) {
    const similarity = barSimilarity(a, b, semitones);
    if (similarity > best.similarity) best = { semitones, similarity };
  }
  return best;
}
