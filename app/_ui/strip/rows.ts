/**
 * `desk`: everything. `stand`: letters, bridges, solo and minutes, for the piano and the phone. `air` and `air-stand`: the
 * same for the soloist, with the time since the last breath and the breaths. `hands` and `hands-stand`: the same for the
 * pianist, with how each bar lies under the hands.
 */
export type StripKind = "desk" | "stand" | "air" | "air-stand" | "hands" | "hands-stand";

/** Top edge of each row in pixels; null for a row that this kind does not have. */
export interface StripRows {
  readonly tempo: number | null;
  readonly letters: number;
  readonly bars: number | null;
  readonly bridges: number;
  readonly solo: number;
  readonly air: number | null;
  readonly hands: number | null;
  readonly breaths: number | null;
  readonly notes: number | null;
  /** The axis under everything. */
  readonly axis: number;
  readonly height: number;
}

export const rowHeights = {
  tempo: 22,
  letters: 20,
  bars: 17,
  bridges: 27,
  solo: 42,
  air: 36,
  hands: 34,
  breaths: 19,
  notes: 22,
  minutes: 20,
} as const;

const kinds = {
  desk: ["tempo", "letters", "bars", "bridges", "solo", "breaths", "notes"],
  stand: ["letters", "bridges", "solo"],
  air: ["tempo", "letters", "bars", "bridges", "solo", "air", "breaths", "notes"],
  "air-stand": ["letters", "bridges", "solo", "air", "breaths"],
  hands: ["tempo", "letters", "bars", "bridges", "solo", "hands"],
  "hands-stand": ["letters", "bridges", "solo", "hands"],
} as const satisfies Record<StripKind, readonly (keyof typeof rowHeights)[]>;

/** Rows from the top down, one under the other. */
export function stackRows(kind: StripKind): StripRows {
  const tops: Partial<Record<keyof typeof rowHeights, number>> = {};
  let top = 0;
  for (const row of kinds[kind]) {
    tops[row] = top;
    top += rowHeights[row];
  }
  return {
    tempo: tops.tempo ?? null,
    letters: tops.letters ?? 0,
    bars: tops.bars ?? null,
    bridges: tops.bridges ?? 0,
    solo: tops.solo ?? 0,
    air: tops.air ?? null,
    hands: tops.hands ?? null,
    breaths: tops.breaths ?? null,
    notes: tops.notes ?? null,
    axis: top,
    height: top + rowHeights.minutes,
  };
}
