import { type Chord, chordShapes } from "@/lib/harmony/chord-shapes";
import type { LocalChord } from "@/lib/harmony/find-chords";
import { sayFifths } from "@/lib/harmony/say-key";
import { sayNumber as sayUpTo } from "@/lib/score/say-number";

const intervals = [
  "a semitone",
  "a tone",
  "a minor third",
  "a major third",
  "a fourth",
  "a tritone",
  "a fifth",
  "a minor sixth",
  "a major sixth",
  "a minor seventh",
  "a major seventh",
  "an octave",
];

const octave = 12;

/** "a fourth", "an octave and a fourth", "two octaves". @param size in semitones, above 0. */
function sayInterval(size: number): string {
  if (size <= octave) return intervals[size - 1] ?? "";
  if (size === 2 * octave) return "two octaves";
  return size > 2 * octave ? "more than two octaves" : `an octave and ${intervals[size - octave - 1]}`;
}

/** "stays", "moves by step", "rises a fourth", "falls an octave and a fifth". */
export function sayMove(semitones: number): string {
  const size = Math.abs(semitones);
  if (size === 0) return "stays";
  if (size <= 2) return "moves by step";
  const way = semitones > 0 ? "rises" : "falls";
  return `${way} ${sayInterval(size)}`;
}

/** "a fourth higher", "a tone lower"; "" at pitch. @param semitones up, 0 to 11; the shorter way is told. */
export function sayTransposition(semitones: number): string {
  if (semitones === 0) return "";
  return semitones <= 6 ? `${intervals[semitones - 1]} higher` : `${intervals[11 - semitones]} lower`;
}

const majorNumerals = ["I", "♭II", "II", "♭III", "III", "IV", "♯IV", "V", "♭VI", "VI", "♭VII", "VII"];
const minorNumerals = ["I", "♭II", "II", "III", "♯III", "IV", "♯IV", "V", "VI", "♯VI", "VII", "♯VII"];

/** The degree that a chord stands on: "V", "ii", "vii°". Source: common practice. */
export function sayDegree({ degree, quality, key }: LocalChord): string {
  const numeral = (key.mode === "major" ? majorNumerals : minorNumerals)[degree] ?? "";
  const shape: readonly number[] = chordShapes[quality];
  const letters = shape[1] === 3 ? numeral.toLowerCase() : numeral;
  const sign = quality === "augmented" ? "+" : shape[2] === 6 ? "°" : "";
  return letters + sign;
}

/** Fifths from the tonic to each degree, as it is usually spelled. */
const degreeFifths = [0, -5, 2, -3, 4, -1, 6, 1, -4, 3, -2, 5];

const qualityNames: Readonly<Record<Chord["quality"], string>> = {
  major: " major",
  minor: " minor",
  diminished: " diminished",
  augmented: " augmented",
  "dominant-seventh": "7",
  "minor-seventh": " minor 7",
  "major-seventh": " major 7",
  "half-diminished": " half-diminished",
  "diminished-seventh": " diminished 7",
};

/** "F major", "B♭7". @param tonicFifths of the key that the chord was heard in. */
export function sayChord({ degree, quality }: LocalChord, tonicFifths: number): string {
  return `${sayFifths(tonicFifths + (degreeFifths[degree] ?? 0))}${qualityNames[quality]}`;
}

/** "three", "14". */
export const sayNumber = (value: number): string => sayUpTo(value, 11);

/** "one beat", "three beats". */
export function sayCount(value: number, what: string): string {
  return `${sayNumber(value)} ${what}${value === 1 ? "" : "s"}`;
}

/** "once", "twice", "five times". */
export function sayTimes(times: number): string {
  if (times === 1) return "once";
  return times === 2 ? "twice" : `${sayNumber(times)} times`;
}

/** Of a share between 0 and 1: "about four in ten". */
export function sayShare(share: number): string {
  const tenths = Math.round(10 * share);
  if (tenths === 5) return "about half";
  if (tenths === 10) return "nearly all";
  return tenths <= 1 ? "only one in ten" : `about ${sayNumber(tenths)} in ten`;
}

const levelNames = ["ppp", "pp", "p", "mp", "mf", "f", "ff", "fff"];

export function sayLevel(level: number): string {
  const place = Math.min(levelNames.length - 1, Math.max(0, Math.round(level)));
  return levelNames[place] ?? "";
}
