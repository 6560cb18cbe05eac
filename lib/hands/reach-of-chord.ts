import type { Reach } from "./hands-profile";

/** No hand is asked to reach less than a fourth or more than two octaves: see `handsProfileSchema`. */
const [least, most] = [5, 24];

/** Semitones of the white keys of an octave. */
const white = [0, 2, 4, 5, 7, 9, 11];

/**
 * Reach of a hand by the widest chord that it can strike and hold. One white key less is comfortable (common practice): what a
 * hand can just hold is not what lies well bar after bar.
 *
 * @param spanSemitones from its lowest to its highest key.
 */
export function reachOfChord(spanSemitones: number): Reach {
  const possible = Math.min(most, Math.max(least, Math.round(spanSemitones)));
  const narrower = white.findLastIndex((step) => step <= possible % 12);
  const octaves = Math.floor(possible / 12);
  const isWhole = white[narrower] === possible % 12;
  const keys = 7 * octaves + narrower - (isWhole ? 1 : 0);
  const comfortable = 12 * Math.floor(keys / 7) + (white[keys % 7] ?? 0);
  return { comfortable: Math.max(least, comfortable), possible };
}
