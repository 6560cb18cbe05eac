import type { CutSpan } from "@/lib/score/cut-span";
import { comparePositions, type Position } from "@/lib/score/position";
import { type Quarters, quarters } from "@/lib/score/quarters";

/** Numbers from 0 to 1, the same for the same seed (mulberry32). */
export function randomNumbers(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** One to three cuts apart from each other: half of their ends at bar lines, the others on an eighth inside a bar. */
export function randomCuts(random: () => number, lengths: readonly Quarters[]): CutSpan[] {
  const count = 1 + Math.floor(random() * 3);
  const places = Array.from({ length: 2 * count }, () => randomPlace(random, lengths)).sort(comparePositions);
  return Array.from({ length: count }, (_, index) => ({
    from: places[2 * index] as Position,
    to: places[2 * index + 1] as Position,
  }));
}

function randomPlace(random: () => number, lengths: readonly Quarters[]): Position {
  const barIndex = Math.floor(random() * lengths.length);
  const length = lengths[barIndex] ?? quarters(0);
  const eighths = Math.floor((2 * length.num) / length.den);
  const offset = random() < 0.5 ? quarters(0) : quarters(Math.floor(random() * eighths), 2);
  return { barIndex, offset };
}
