import { isEqualQuarters, type Quarters, quarters, scaleQuarters } from "@/lib/score/quarters";
import { isWithinTime } from "./exact-time";

/** MusicXML 4.0 `note-type-value`, in quarter notes. */
const types: ReadonlyMap<string, Quarters> = new Map([
  ["maxima", quarters(32)],
  ["long", quarters(16)],
  ["breve", quarters(8)],
  ["whole", quarters(4)],
  ["half", quarters(2)],
  ["quarter", quarters(1)],
  ["eighth", quarters(1, 2)],
  ["16th", quarters(1, 4)],
  ["32nd", quarters(1, 8)],
  ["64th", quarters(1, 16)],
  ["128th", quarters(1, 32)],
  ["256th", quarters(1, 64)],
  ["512th", quarters(1, 128)],
  ["1024th", quarters(1, 256)],
]);

/** How a length is drawn: `dots` after the note, `actual` such notes in the time of `normal`. */
export interface NoteValue {
  readonly type: string;
  readonly dots: number;
  readonly actual: number;
  readonly normal: number;
}

const mostDots = 4;

/** Length of a drawn note; null for an unknown type, an impossible tuplet or a length outside `timeLimits`. */
export function lengthOfNoteValue({ type, dots, actual, normal }: NoteValue): Quarters | null {
  const plain = types.get(type);
  const isPossible = [actual, normal].every(
    (count) => Number.isInteger(count) && count >= 1 && count <= 1024,
  );
  if (!plain || dots > mostDots || !isPossible) return null;
  // n dots lengthen a note to 2 - 1/2^n of itself.
  const length = scaleQuarters(plain, (2 ** (dots + 1) - 1) * normal, 2 ** dots * actual);
  return isWithinTime(length) ? length : null;
}

/** Tuplets in the order in which they are tried: the plain note, then the usual ones. Source: common practice. */
const tuplets: readonly (readonly [number, number])[] = [
  [1, 1],
  [3, 2],
  [5, 4],
  [7, 4],
  [6, 4],
  [9, 8],
  [11, 8],
  [13, 8],
  [15, 8],
  [2, 3],
  [4, 3],
];

/** A way to draw the length as one note with at most two dots; null when there is none. */
export function findNoteValue(length: Quarters): NoteValue | null {
  for (const [actual, normal] of tuplets) {
    for (let dots = 0; dots <= 2; dots += 1) {
      for (const type of types.keys()) {
        const value = { type, dots, actual, normal };
        const drawn = lengthOfNoteValue(value);
        if (drawn && isEqualQuarters(drawn, length)) return value;
      }
    }
  }
  return null;
}
