import type { RewriteEvent, RewritePitch, RewriteTerms } from "@/lib/edition/rewrite-terms";
import {
  earlierOf,
  type Quarters,
  readQuarters,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import { success } from "@/lib/score/result";
import { isRest, replaceEvents, sidesOf, withSides } from "./change-event";
import { findChordFault } from "./check-chord";
import { cannot, type Edited } from "./edit-problem";
import { type EventPlace, endOf, eventAt, offsetOf, placeOf } from "./event-place";
import { findRoom } from "./find-room";
import type { MovedNotes } from "./move-to-other-hand";

/** Adds a note to a chord, or writes it instead of a rest, for as long. */
export function addNote(terms: RewriteTerms, place: EventPlace, pitch: RewritePitch): Edited<RewriteTerms> {
  const event = eventAt(terms, place);
  const { pitches, other } = sidesOf(event);
  const chord = [...pitches, pitch];
  const fault = findChordFault(chord);
  if (fault !== null) return cannot(fault);
  return success(replaceEvents(terms, [event], [withSides(event, { pitches: chord, other })]));
}

/** A place on a staff, whether anything begins there or not. */
export interface StaffPlace {
  readonly barIndex: number;
  /** As `writeQuarters` writes it. */
  readonly offset: string;
  readonly staff: number;
}

/**
 * Adds a note at a place of a staff: to what begins there, else into the rest that lies there, else in a voice of its own.
 *
 * @param longest where nothing begins there, it lasts so long at most, in quarter notes.
 * @throws RangeError if the offset is none or `longest` is not positive.
 */
export function addNoteAt(
  terms: RewriteTerms,
  { barIndex, offset, staff }: StaffPlace,
  pitch: RewritePitch,
  longest: Quarters,
): Edited<MovedNotes> {
  const from = readQuarters(offset);
  if (from === null || longest.num <= 0) throw new RangeError(`No such place or length: ${offset}`);
  const here = beginningAt(terms, { barIndex, offset, staff });
  if (here) {
    const place = placeOf(here);
    const added = addNote(terms, place, pitch);
    return added.ok ? success({ terms: added.value, place }) : added;
  }
  const fault = findChordFault([pitch]);
  if (fault !== null) return cannot(fault);
  const end = endOfBar(terms, barIndex);
  const length = earlierOf(longest, subtractQuarters(end, from));
  if (length.num <= 0) return cannot("This place is behind the end of its bar.");
  const room = findRoom(terms, { barIndex, staff, from, length });
  if (room === null)
    return cannot("All voices of this staff play here: add the note to one of their chords.");
  const note: RewriteEvent = {
    ...{ at: { barIndex, offset }, lasts: writeQuarters(length), staff, voice: room.voice },
    ...{ pitches: [pitch], tied: [], tremolo: null, isRolled: false, isAccented: false },
  };
  const written = replaceEvents(terms, room.gone, [note, ...room.left]);
  return success({ terms: written, place: placeOf(note) });
}

/** A chord before a rest, the highest voice before the others. */
function beginningAt(terms: RewriteTerms, { barIndex, offset, staff }: StaffPlace): RewriteEvent | undefined {
  const here = terms.events.filter(
    (event) => event.staff === staff && event.at.barIndex === barIndex && event.at.offset === offset,
  );
  return here.find((event) => !isRest(event)) ?? here[0];
}

/** Where the last of a bar's events ends; at the start for a bar without any. */
function endOfBar({ events }: RewriteTerms, barIndex: number): Quarters {
  const inBar = events.filter(({ at }) => at.barIndex === barIndex);
  const [first] = inBar;
  if (!first) throw new RangeError(`The rewrite has nothing in bar index ${barIndex}`);
  return inBar.reduce((far, event) => {
    const end = endOf(event);
    return end.num * far.den > far.num * end.den ? end : far;
  }, offsetOf(first));
}
