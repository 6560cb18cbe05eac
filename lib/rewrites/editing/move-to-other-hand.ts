import type { RewriteEvent, RewriteTerms } from "@/lib/edition/rewrite-terms";
import { success } from "@/lib/score/result";
import { isRest, isToAndFro, replaceEvents, sidesOf, withSides } from "./change-event";
import { findChordFault } from "./check-chord";
import { cannot, type Edited } from "./edit-problem";
import {
  type EventPlace,
  eventAt,
  isSamePitch,
  lengthOf,
  type NoteChoice,
  offsetOf,
  placeOf,
} from "./event-place";
import { findRoom } from "./find-room";

const [upperStaff, lowerStaff] = [1, 2];

/** A rewrite in which notes have moved, and where they are now. */
export interface MovedNotes {
  readonly terms: RewriteTerms;
  readonly place: EventPlace;
}

/**
 * Gives a note or a whole chord to the other hand: it joins what begins there with it and lasts as long, else takes the place
 * of a rest, else a voice of its own. What is left behind is a rest when nothing is. Ties from and to it go.
 *
 * @param staffCount of the part.
 */
export function moveToOtherHand(
  terms: RewriteTerms,
  choice: NoteChoice,
  staffCount: number,
): Edited<MovedNotes> {
  const event = eventAt(terms, choice.place);
  if (isRest(event)) return cannot("This is a rest: there is no note to give away.");
  if (staffCount < 2) return cannot("This part has one staff only.");
  const moved = takeOut(event, choice, event.staff === upperStaff ? lowerStaff : upperStaff);
  if (moved === null)
    return cannot("One side of a tremolo cannot be given away alone. Choose the whole of it.");
  const left = leaveBehind(event, moved);
  const partner = terms.events.find((other) => isPartner(other, moved));
  if (partner) return join(terms, event, left, partner, moved);
  const { barIndex } = event.at;
  const room = findRoom(terms, {
    barIndex,
    staff: moved.staff,
    from: offsetOf(event),
    length: lengthOf(event),
  });
  if (room === null) return cannot("All voices of the other staff play here: there is no room for one more.");
  const placed = { ...moved, voice: room.voice };
  const written = replaceEvents(terms, [event, ...room.gone], [left, placed, ...room.left]);
  return success({ terms: written, place: placeOf(placed) });
}

/** What goes, as an event of the other staff; null for a part of a tremolo that cannot stand alone. */
function takeOut(event: RewriteEvent, { pitch }: NoteChoice, staff: number): RewriteEvent | null {
  const isChosen = (each: RewriteEvent["pitches"][number]) => pitch === null || isSamePitch(each, pitch);
  if (pitch !== null && isToAndFro(event)) return null;
  const { pitches, other } = sidesOf(event);
  return {
    ...withSides(event, { pitches: pitches.filter(isChosen), other: other.filter(isChosen) }),
    ...{ staff, tied: [] },
  };
}

function leaveBehind(event: RewriteEvent, moved: RewriteEvent): RewriteEvent {
  const hasGone = (each: RewriteEvent["pitches"][number]) =>
    moved.pitches.some((pitch) => isSamePitch(pitch, each));
  const { pitches, other } = sidesOf(event);
  if (isToAndFro(moved)) return withSides(event, { pitches: [], other: [] });
  return withSides(event, { pitches: pitches.filter((each) => !hasGone(each)), other });
}

/** Something of the other staff that begins and ends with what comes, and can take it in. */
function isPartner(other: RewriteEvent, moved: RewriteEvent): boolean {
  const isWithIt =
    other.staff === moved.staff &&
    other.at.barIndex === moved.at.barIndex &&
    other.at.offset === moved.at.offset &&
    other.lasts === moved.lasts;
  return isWithIt && !isRest(other) && other.tremolo === null && moved.tremolo === null;
}

function join(
  terms: RewriteTerms,
  event: RewriteEvent,
  left: RewriteEvent,
  partner: RewriteEvent,
  moved: RewriteEvent,
): Edited<MovedNotes> {
  const pitches = [...partner.pitches, ...moved.pitches];
  const fault = findChordFault(pitches);
  if (fault !== null) return cannot(fault);
  const joined = withSides(
    {
      ...partner,
      isRolled: partner.isRolled || moved.isRolled,
      isAccented: partner.isAccented || moved.isAccented,
    },
    { pitches, other: [] },
  );
  return success({
    terms: replaceEvents(terms, [event, partner], [left, joined]),
    place: placeOf(joined),
  });
}
