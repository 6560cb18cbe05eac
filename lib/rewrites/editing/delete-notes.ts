import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { success } from "@/lib/score/result";
import { isRest, replaceEvents, sidesOf, withSides } from "./change-event";
import { cannot, type Edited } from "./edit-problem";
import { eventAt, isSamePitch, type NoteChoice } from "./event-place";

/** Takes a note or a whole chord away; when nothing is left there is a rest for as long. */
export function deleteNotes(terms: RewriteTerms, { place, pitch }: NoteChoice): Edited<RewriteTerms> {
  const event = eventAt(terms, place);
  if (isRest(event)) return cannot("This is a rest: there is no note to delete.");
  const { pitches, other } = sidesOf(event);
  const stays = (each: (typeof pitches)[number]) => pitch !== null && !isSamePitch(each, pitch);
  const left = withSides(event, { pitches: pitches.filter(stays), other: other.filter(stays) });
  return success(replaceEvents(terms, [event], [left]));
}
