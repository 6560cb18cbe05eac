import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { success } from "@/lib/score/result";
import { isRest, replaceEvents } from "./change-event";
import { cannot, type Edited } from "./edit-problem";
import { type EventPlace, eventAt } from "./event-place";

/** Breaks a chord from the lowest note up, or strikes it together again. */
export function toggleRoll(terms: RewriteTerms, place: EventPlace): Edited<RewriteTerms> {
  const event = eventAt(terms, place);
  if (event.pitches.length < 2) return cannot("Only a chord of two notes or more can be rolled.");
  if (event.tremolo !== null) return cannot("A tremolo is not rolled. Take the tremolo away first.");
  return success(replaceEvents(terms, [event], [{ ...event, isRolled: !event.isRolled }]));
}

export function toggleAccent(terms: RewriteTerms, place: EventPlace): Edited<RewriteTerms> {
  const event = eventAt(terms, place);
  if (isRest(event)) return cannot("This is a rest: there is nothing to accent.");
  return success(replaceEvents(terms, [event], [{ ...event, isAccented: !event.isAccented }]));
}
