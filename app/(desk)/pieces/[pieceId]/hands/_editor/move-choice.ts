import type { RewriteEvent } from "@/lib/edition/rewrite-terms";
import {
  isSamePitch,
  isSamePlace,
  type NoteChoice,
  offsetOf,
  placeOf,
} from "@/lib/rewrites/editing/event-place";
import { compareQuarters } from "@/lib/score/quarters";
import { byTime } from "./find-drawn";

export type Direction = "before" | "after" | "higher" | "lower";

/**
 * What the arrows choose: the event before or after on the same staff; towards the other hand, what it plays meanwhile; away
 * from it, one note of the chord after the other, and past the last the whole of it.
 */
export function moveChoice(
  events: readonly RewriteEvent[],
  choice: NoteChoice | null,
  direction: Direction,
): NoteChoice | null {
  const inOrder = [...events].sort(byTime);
  const event = choice && inOrder.find((each) => isSamePlace(placeOf(each), choice.place));
  if (!event) return inOrder[0] ? { place: placeOf(inOrder[0]), pitch: null } : null;
  if (direction === "before" || direction === "after") return along(inOrder, event, direction);
  return inChord(inOrder, event, choice, direction);
}

function along(
  events: readonly RewriteEvent[],
  event: RewriteEvent,
  direction: "before" | "after",
): NoteChoice {
  const ofStaff = events.filter(({ staff }) => staff === event.staff);
  const next = ofStaff[ofStaff.indexOf(event) + (direction === "after" ? 1 : -1)];
  return { place: placeOf(next ?? event), pitch: null };
}

function inChord(
  events: readonly RewriteEvent[],
  event: RewriteEvent,
  { pitch }: NoteChoice,
  direction: "higher" | "lower",
): NoteChoice {
  const place = placeOf(event);
  const notes = [...event.pitches, ...(event.tremolo?.other ?? [])];
  const step = direction === "higher" ? 1 : -1;
  if (pitch !== null) {
    const at = notes.findIndex((each) => isSamePitch(each, pitch));
    return { place, pitch: notes[at + step] ?? null };
  }
  const other = atOtherHand(events, event, direction);
  if (other) return { place: placeOf(other), pitch: null };
  return { place, pitch: notes.length < 2 ? null : (notes.at(direction === "higher" ? 0 : -1) ?? null) };
}

/** What sounds on the staff above or below when an event begins. */
function atOtherHand(
  events: readonly RewriteEvent[],
  { at, staff }: RewriteEvent,
  direction: "higher" | "lower",
): RewriteEvent | null {
  const wanted = staff + (direction === "higher" ? -1 : 1);
  const here = events.filter((other) => other.staff === wanted && other.at.barIndex === at.barIndex);
  return here.findLast((other) => compareQuarters(offsetOf(other), offsetOf({ at })) <= 0) ?? here[0] ?? null;
}
