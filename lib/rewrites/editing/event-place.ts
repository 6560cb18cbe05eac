import { toPosition } from "@/lib/edition/position-terms";
import type { RewriteEvent, RewritePitch, RewriteTerms } from "@/lib/edition/rewrite-terms";
import { addQuarters, compareQuarters, type Quarters, readQuarters } from "@/lib/score/quarters";

/** Where an event of a rewrite begins; nothing else of it is needed to find it again. */
export interface EventPlace {
  readonly barIndex: number;
  /** As `writeQuarters` writes it. */
  readonly offset: string;
  readonly staff: number;
  readonly voice: number;
}

/** What is to be changed: one note of an event, or all of it. */
export interface NoteChoice {
  readonly place: EventPlace;
  /** Null for the whole chord. */
  readonly pitch: RewritePitch | null;
}

export const placeOf = ({ at, staff, voice }: RewriteEvent): EventPlace => ({ ...at, staff, voice });

export const isSamePlace = (a: EventPlace, b: EventPlace): boolean =>
  a.barIndex === b.barIndex && a.offset === b.offset && a.staff === b.staff && a.voice === b.voice;

export const isSamePitch = (a: RewritePitch, b: RewritePitch): boolean =>
  a.step === b.step && a.alter === b.alter && a.octave === b.octave;

/**
 * The event that begins at a place.
 *
 * @throws RangeError if none does.
 */
export function eventAt({ events }: RewriteTerms, place: EventPlace): RewriteEvent {
  const found = events.find((event) => isSamePlace(placeOf(event), place));
  if (!found) throw new RangeError(`Nothing begins at ${JSON.stringify(place)}`);
  return found;
}

export const offsetOf = ({ at }: Pick<RewriteEvent, "at">): Quarters => toPosition(at).offset;

/** @throws RangeError if the terms did not pass `rewriteTermsSchema`. */
export function lengthOf({ lasts }: Pick<RewriteEvent, "lasts">): Quarters {
  const length = readQuarters(lasts);
  if (length === null) throw new RangeError(`Not a length in quarter notes: ${lasts}`);
  return length;
}

export const endOf = (event: RewriteEvent): Quarters => addQuarters(offsetOf(event), lengthOf(event));

/** By bar, staff, voice and place: the one order in which a rewrite is kept. */
export function byPlace(a: RewriteEvent, b: RewriteEvent): number {
  return (
    a.at.barIndex - b.at.barIndex ||
    a.staff - b.staff ||
    a.voice - b.voice ||
    compareQuarters(offsetOf(a), offsetOf(b))
  );
}
