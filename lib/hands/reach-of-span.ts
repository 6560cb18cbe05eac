import type { Reach } from "./hands-profile";

/** From the middle of a white key to the middle of the next, in millimetres; as wide is what a finger has to hit. */
export const keyMillimetres = 23.5;
/** From the middle of one key to the middle of the other, in millimetres: seven white keys. */
export const octaveMillimetres = 7 * keyMillimetres;

/**
 * Centimetres from the tip of the thumb to the tip of the fifth finger that strike an octave at the edge of the keys.
 * Source: Boyle, Boyle & Booker 2015: an octave takes 6.5 inches.
 */
const octaveSpan = 16.5;

/**
 * Reach of a hand by its span, for those who measure instead of playing.
 *
 * @param spanCentimetres from the tip of the thumb to the tip of the fifth finger, stretched.
 * Source: Boyle, Boyle & Booker 2015 (473 adult pianists): an octave takes 16.5 cm, a tenth 21.6 cm (8.5 inches, their
 * threshold for a tenth); the white keys between and beyond are taken at the same 2.5 cm a key. One key less is comfortable
 * (common practice).
 */
export function reachOfSpan(spanCentimetres: number): Reach {
  const centimetresPerKey = (21.6 - octaveSpan) / 2;
  const keys = Math.max(3, Math.floor(7 + (spanCentimetres - octaveSpan) / centimetresPerKey + 1e-9));
  return { comfortable: semitonesOfKeys(keys - 1), possible: semitonesOfKeys(keys) };
}

/** Semitones of the widest interval of so many white keys' steps: 7 is an octave (12), 8 a ninth (14), 9 a tenth (16). */
function semitonesOfKeys(keys: number): number {
  const steps = [0, 2, 4, 5, 7, 9, 11];
  return Math.min(24, 12 * Math.floor(keys / 7) + (steps[keys % 7] ?? 0));
}
