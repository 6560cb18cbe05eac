import { sayInterval } from "@/lib/hands/say-interval";
import type { Strain, StrainKind } from "@/lib/hands/strain";

const kinds: Readonly<Record<StrainKind, string>> = {
  stretch: "Wide chords",
  "too many notes": "Too many keys at once",
  "held note": "A held note and what moves beside it",
  crossing: "One hand over the other",
  leap: "Leaps",
  "repeated note": "A repeated key",
  "repeated chord": "Repeated chords",
  "octaves in a row": "Octaves and chords in a row",
  run: "A run",
};

/** One decimal, without a zero after it: "7.3", "6". */
export const sayFigure = (value: number): string => `${Math.round(value * 10) / 10}`;

/** What a passage is called: "Repeated chords, right hand". */
export function namePassage({ kind, hand }: Pick<Strain, "kind" | "hand">): string {
  return `${kinds[kind]}, ${hand} hand`;
}

/** Its figures in a few words: "7.3 a second; you manage 6". */
export function sayFigures({ kind, figure, limit, availableSeconds, isOfOctaves }: Strain): string {
  switch (kind) {
    case "stretch":
      return `${sayInterval(figure)}, ${sayInterval(limit)} lies well for you`;
    case "held note":
      return `${sayInterval(figure)} from the held note`;
    case "too many notes":
      return `${figure} keys for five fingers`;
    case "crossing":
      return "the hands meet on the same keys";
    case "leap":
      return `${(availableSeconds ?? 0).toFixed(2)} s for a leap that takes ${limit.toFixed(2)} s`;
    default:
      return `${sayFigure(figure)} a second${isOfOctaves ? ", an octave wide" : ""}; you manage ${sayFigure(limit)}`;
  }
}

/** The words over the bracket of the worst place: "7.3 chords a second". */
export function sayOverBracket({ kind, figure }: Strain): string {
  switch (kind) {
    case "stretch":
    case "held note":
      return sayInterval(figure);
    case "too many notes":
      return `${figure} keys`;
    case "crossing":
      return "hands cross";
    case "leap":
      return `${sayInterval(figure)} to leap`;
    case "repeated note":
      return `${sayFigure(figure)} strokes a second`;
    case "run":
      return `${sayFigure(figure)} notes a second`;
    default:
      return `${sayFigure(figure)} chords a second`;
  }
}

const short: Readonly<Record<number, string>> = {
  5: "4th",
  6: "tritone",
  7: "5th",
  8: "minor 6th",
  9: "6th",
  10: "minor 7th",
  11: "7th",
  12: "octave",
  13: "minor 9th",
  14: "9th",
  15: "minor 10th",
  16: "10th",
  17: "11th",
  18: "augm. 11th",
  19: "12th",
  20: "minor 13th",
  21: "13th",
  22: "minor 14th",
  23: "14th",
  24: "two octaves",
};

/** An interval as a figure: "10th". @param semitones of a reach, 5 to 24. */
export function shortInterval(semitones: number): string {
  return short[semitones] ?? sayInterval(semitones);
}

/** The tempo up to which a passage is comfortable, counted in whole beats; null where it is so at no tempo, or at any. */
export function comfortableBeats(comfortablePace: number, perMinute: number): number | null {
  if (!(comfortablePace > 0) || !Number.isFinite(comfortablePace)) return null;
  return Math.floor(comfortablePace * perMinute + 1e-6);
}
