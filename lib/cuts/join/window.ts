import type { LaneNote } from "./lanes";

/** Slots in a window of a bar's length. */
const windowSlots = 16;

/** What sounds and begins in a stretch of a bar's length, slot by slot. */
export interface Window {
  /** By slot: bit `p` where pitch class `p` sounds. */
  readonly pitchClasses: Uint16Array;
  /** Bits set in all slots. */
  readonly weight: number;
  /** Bit `s` where something begins in slot `s`. */
  readonly rhythm: number;
  /** The same for each lane. */
  readonly laneRhythm: Uint16Array;
  /** Slots in which the highest voice begins a note, and its pitch there; 0 where it does not. */
  readonly melody: Uint8Array;
}

const bitCounts = Uint8Array.from({ length: 4096 }, (_, mask) => {
  let count = 0;
  for (let rest = mask; rest > 0; rest &= rest - 1) count += 1;
  return count;
});

/**
 * @param notes those that sound in the stretch, at least.
 * @param from in ticks, as `to`, which is exclusive.
 */
export function makeWindow(notes: readonly LaneNote[], laneCount: number, from: number, to: number): Window {
  const pitchClasses = new Uint16Array(windowSlots);
  const laneRhythm = new Uint16Array(laneCount);
  const melody = new Uint8Array(windowSlots);
  const slotOf = (time: number, round: (value: number) => number) =>
    round(((time - from) * windowSlots) / (to - from));
  let rhythm = 0;
  for (const { lane, onset, end, midi, pitchClass } of notes) {
    if (onset >= to || end <= from) continue;
    const first = Math.max(0, slotOf(onset, Math.floor));
    const last = Math.min(windowSlots, Math.max(first + 1, slotOf(end, Math.ceil)));
    for (let slot = first; slot < last; slot += 1) {
      pitchClasses[slot] = (pitchClasses[slot] as number) | (1 << pitchClass);
    }
    if (onset < from) continue;
    rhythm |= 1 << first;
    laneRhythm[lane] = (laneRhythm[lane] as number) | (1 << first);
    melody[first] = Math.max(melody[first] as number, midi);
  }
  const weight = pitchClasses.reduce((sum, mask) => sum + (bitCounts[mask] as number), 0);
  return { pitchClasses, weight, rhythm, laneRhythm, melody };
}

/** How alike two windows are with the first raised by so many semitones: Jaccard's index, 0 when both are silent. */
export function likenessOf(a: Window, b: Window, semitones: number): number {
  let shared = 0;
  for (let slot = 0; slot < windowSlots; slot += 1) {
    const mask = a.pitchClasses[slot] as number;
    const raised = ((mask << semitones) | (mask >> (12 - semitones))) & 0xfff;
    shared += bitCounts[raised & (b.pitchClasses[slot] as number)] as number;
  }
  const all = a.weight + b.weight - shared;
  return all === 0 ? 0 : shared / all;
}
