/** Thumb to fifth finger. */
export type Finger = 1 | 2 | 3 | 4 | 5;
export const fingers: readonly Finger[] = [1, 2, 3, 4, 5];

/** Semitones from one finger up to the other, right hand: practically possible, comfortable, relaxed. */
export interface PairSpan {
  readonly minPractical: number;
  readonly minComfortable: number;
  readonly minRelaxed: number;
  readonly maxRelaxed: number;
  readonly maxComfortable: number;
  readonly maxPractical: number;
}

/**
 * Right hand, ascending. Source: Parncutt, Sloboda, Clarke, Raekallio & Desain 1997, "An ergonomic model of keyboard
 * fingering for melodic fragments", Music Perception 14(4), table of finger spans. Made for melodies; for chords it is an
 * approximation.
 */
const table: Readonly<Record<string, readonly [number, number, number, number, number, number]>> = {
  "1-2": [-5, -3, 1, 5, 8, 10],
  "1-3": [-4, -2, 3, 7, 10, 12],
  "1-4": [-3, -1, 5, 9, 12, 14],
  "1-5": [-1, 1, 7, 10, 13, 15],
  "2-3": [1, 1, 1, 2, 3, 5],
  "2-4": [1, 1, 3, 4, 5, 7],
  "2-5": [2, 2, 5, 6, 8, 10],
  "3-4": [1, 1, 1, 2, 2, 4],
  "3-5": [1, 1, 3, 4, 5, 7],
  "4-5": [1, 1, 1, 2, 3, 5],
};

const spans = new Map<number, PairSpan>();
for (const from of fingers) {
  for (const to of fingers) {
    const row = table[`${Math.min(from, to)}-${Math.max(from, to)}`];
    if (!row) continue;
    // Going down, the intervals are those of going up, negated and swapped.
    const [a, b, c, d, e, f] =
      from < to ? row : (row.map((value) => -value).reverse() as unknown as typeof row);
    spans.set(from * 10 + to, {
      ...{ minPractical: a, minComfortable: b, minRelaxed: c },
      ...{ maxRelaxed: d, maxComfortable: e, maxPractical: f },
    });
  }
}

/** @returns null for a finger and itself. */
export function pairSpan(from: Finger, to: Finger): PairSpan | null {
  return spans.get(from * 10 + to) ?? null;
}
