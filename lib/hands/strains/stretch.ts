import { type HandStroke, spanOf } from "../hand-stroke";
import type { HandName, Reach } from "../hands-profile";
import type { Found } from "./found";

/** What is a little wider than the hand is broken without a sign: so many semitones more. Common practice; the number is ours. */
const brokenByCustom = 3;

/** From this load on a chord is struck together by nobody with such hands. */
export const beyondReach = 1.4;

/**
 * How hard it is to strike so many semitones together: 0.9 at what is comfortable, 1 to 1.3 up to what is possible, 1.4 to
 * 1.5 where the chord has to be broken, from 2 on beyond that. Ours; it falls with both numbers and rises with the span.
 */
export function stretchLoad(semitones: number, { comfortable, possible }: Reach): number {
  if (semitones <= comfortable) return 0.9 * (semitones / comfortable) ** 2;
  const beyond = semitones - possible;
  if (beyond > brokenByCustom) return 2 + beyond / 12;
  if (beyond > 0) return beyondReach + (0.1 * beyond) / brokenByCustom;
  return 1 + (0.3 * (semitones - comfortable)) / (possible - comfortable);
}

/** A broken chord takes the hand along; up to two octaves it is no strain. Common practice. */
const rolledLoad = 0.8;
const rolledReach = 24;

/** The widest chord that the hand strikes. */
export function findStretch(strokes: readonly HandStroke[], reach: Reach, hand: HandName): Found | null {
  let widest: Found | null = null;
  for (const stroke of strokes) {
    if (stroke.isBefore || stroke.notes.length < 2) continue;
    const span = spanOf(stroke);
    const struck = stretchLoad(span, reach);
    const load = stroke.isRolled && span <= rolledReach ? Math.min(struck, rolledLoad) : struck;
    if (load > (widest?.load ?? 0)) {
      widest = {
        ...{ kind: "stretch", hand, load, isTimed: false },
        figure: span,
        limit: reach.comfortable,
        strokes: [stroke],
      };
    }
  }
  return widest;
}

/** Beside a held note one may let go and leave the sound to the pedal, so that it never makes a place awkward by itself. */
const heldMost = 0.95;

/** The widest reach from a note that the hand still holds to what it strikes. */
export function findHeldNote(strokes: readonly HandStroke[], reach: Reach, hand: HandName): Found | null {
  let widest: Found | null = null;
  let held: HandStroke["notes"] = [];
  for (const stroke of strokes) {
    held = held.filter(({ endSeconds }) => endSeconds > stroke.seconds + 1e-9);
    if (!stroke.isBefore && held.length > 0) {
      const keys = [...held, ...stroke.notes].map(({ midi }) => midi);
      const span = Math.max(...keys) - Math.min(...keys);
      const load = Math.min(heldMost, stretchLoad(span, reach));
      if (load > (widest?.load ?? 0)) {
        widest = {
          ...{ kind: "held note", hand, load, isTimed: false },
          figure: span,
          limit: reach.comfortable,
          strokes: [stroke],
        };
      }
    }
    held = [...held, ...stroke.notes];
  }
  return widest;
}

const fingers = 5;

/** More keys than a hand has fingers; below that, each finger counts a little. */
export function findCrowd(strokes: readonly HandStroke[], hand: HandName): Found | null {
  let fullest: Found | null = null;
  for (const stroke of strokes) {
    const count = stroke.notes.length;
    if (stroke.isBefore || count < 3) continue;
    const load = count > fingers ? 2 + (count - fingers) / 10 : 0.15 * count;
    if (load > (fullest?.load ?? 0)) {
      fullest = {
        ...{ kind: "too many notes", hand, load, isTimed: false },
        figure: count,
        limit: fingers,
        strokes: [stroke],
      };
    }
  }
  return fullest;
}
