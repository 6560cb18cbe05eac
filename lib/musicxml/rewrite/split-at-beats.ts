import {
  addQuarters,
  compareQuarters,
  isEqualQuarters,
  type Quarters,
  scaleQuarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import { type NoteValue, splitInValues } from "../cut/retype-note";
import type { Beats } from "./metre-beats";

/** A printed value of a bar, before ties are drawn. */
export interface WrittenValue {
  readonly at: Quarters;
  readonly length: Quarters;
  /** Null when no printed value is so long. */
  readonly value: NoteValue | null;
}

/**
 * The printed values of what sounds from `at` for `length`, to be tied: a note that begins off the beat is divided at
 * the next beat, but for a plain syncopation of one beat; nothing that begins off the strong beats crosses the middle of
 * a bar of four. Source: common practice.
 *
 * @param at from the start of the bar.
 * @param length outside any tuplet.
 */
export function splitAtBeats(at: Quarters, length: Quarters, beats: Beats): WrittenValue[] {
  const border = findBorder(at, length, beats);
  if (border) {
    const first = subtractQuarters(border, at);
    return [
      ...splitAtBeats(at, first, beats),
      ...splitAtBeats(border, subtractQuarters(length, first), beats),
    ];
  }
  const values = splitInValues(length);
  const [longest] = values ?? [];
  if (!values || !longest) return [{ at, length, value: null }];
  const first = { at, length: longest.length, value: longest };
  if (values.length === 1) return [first];
  return [
    first,
    ...splitAtBeats(addQuarters(at, longest.length), subtractQuarters(length, longest.length), beats),
  ];
}

/** The place inside a note at which it has to be divided; null when it may stand whole. */
function findBorder(at: Quarters, length: Quarters, { beat, middle }: Beats): Quarters | null {
  const end = addQuarters(at, length);
  const past = subtractQuarters(at, floorTo(at, beat));
  const next = addQuarters(floorTo(at, beat), beat);
  const crossesMiddle =
    middle !== null && compareQuarters(at, middle) < 0 && compareQuarters(end, middle) > 0;
  if (past.num > 0 && compareQuarters(end, next) > 0) {
    const isSyncopation = isEqualQuarters(length, beat) && isEqualQuarters(scaleQuarters(past, 2), beat);
    return isSyncopation && !crossesMiddle ? null : next;
  }
  const isFromWeakBeat = crossesMiddle && at.num > 0 && compareQuarters(length, scaleQuarters(beat, 2)) > 0;
  return isFromWeakBeat ? middle : null;
}

/** The last multiple of `unit` that is not after `at`. */
export function floorTo(at: Quarters, unit: Quarters): Quarters {
  return scaleQuarters(unit, Math.floor((at.num * unit.den) / (at.den * unit.num)));
}
