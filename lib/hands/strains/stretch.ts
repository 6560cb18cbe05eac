import { type HandStroke, spanOf, type TimedNote } from "../hand-stroke";
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
  let [load, widest] = [0, -1];
  for (const [index, stroke] of strokes.entries()) {
    const span = spanOf(stroke);
    if (stroke.isBefore || span === 0) continue;
    const struck = stretchLoad(span, reach);
    const asPlayed = stroke.isRolled && span <= rolledReach ? Math.min(struck, rolledLoad) : struck;
    if (asPlayed > load) [load, widest] = [asPlayed, index];
  }
  const stroke = strokes[widest];
  if (!stroke) return null;
  const about = { kind: "stretch", hand, load, isTimed: false, figure: spanOf(stroke) } as const;
  return { ...about, limit: reach.comfortable, strokes: [stroke] };
}

/** Beside a held note one may let go and leave the sound to the pedal, so that it never makes a place awkward by itself. */
const heldMost = 0.95;

/** The widest reach from a note that the hand still holds to what it strikes. */
export function findHeldNote(strokes: readonly HandStroke[], reach: Reach, hand: HandName): Found | null {
  let [widest, at] = [-1, 0];
  let held: TimedNote[] = [];
  for (const [index, { notes, lowest, highest, seconds, isBefore }] of strokes.entries()) {
    held = held.filter(({ endSeconds }) => endSeconds > seconds + 1e-9);
    if (!isBefore && held.length > 0) {
      let [from, to] = [lowest, highest];
      for (const { midi } of held) [from, to] = [Math.min(from, midi), Math.max(to, midi)];
      if (to - from > widest) [widest, at] = [to - from, index];
    }
    held.push(...notes);
  }
  const load = Math.min(heldMost, stretchLoad(widest, reach));
  if (widest <= 0 || load === 0) return null;
  const about = { kind: "held note", hand, load, isTimed: false, figure: widest } as const;
  return { ...about, limit: reach.comfortable, strokes: strokes.slice(at, at + 1) };
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
