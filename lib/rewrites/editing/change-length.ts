import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { addQuarters, compareQuarters, quarters, scaleQuarters, writeQuarters } from "@/lib/score/quarters";
import { success } from "@/lib/score/result";
import { nextInVoice, replaceEvents } from "./change-event";
import { cannot, type Edited } from "./edit-problem";
import { type EventPlace, eventAt, isSamePitch, lengthOf, offsetOf } from "./event-place";

/** In quarter notes: a 64th, the shortest that is written. */
const shortest = quarters(1, 16);

/** Gives an event the time of the next one in its voice and bar, which goes: repeated notes become one. */
export function joinWithNext(terms: RewriteTerms, place: EventPlace): Edited<RewriteTerms> {
  const event = eventAt(terms, place);
  const next = nextInVoice(terms.events, event);
  if (next === null || next.at.barIndex !== event.at.barIndex)
    return cannot("Nothing follows in this bar. A note that goes on over the bar line is tied.");
  const lasts = writeQuarters(addQuarters(lengthOf(event), lengthOf(next)));
  const tied = next.tied.flatMap((index) => {
    const held = next.pitches[index];
    const own = event.pitches.findIndex((pitch) => held !== undefined && isSamePitch(pitch, held));
    return own === -1 ? [] : [own];
  });
  return success(
    replaceEvents(terms, [event, next], [{ ...event, lasts, tied: tied.sort((a, b) => a - b) }]),
  );
}

/** Divides an event into two of half its length, each struck. */
export function divide(terms: RewriteTerms, place: EventPlace): Edited<RewriteTerms> {
  const event = eventAt(terms, place);
  const half = scaleQuarters(lengthOf(event), 1, 2);
  if (compareQuarters(half, shortest) < 0) return cannot("This is as short as it can be written.");
  const lasts = writeQuarters(half);
  const middle = { ...event.at, offset: writeQuarters(addQuarters(offsetOf(event), half)) };
  const first = { ...event, lasts, tied: [] };
  const second = { ...event, lasts, at: middle, isRolled: false, isAccented: false };
  return success(replaceEvents(terms, [event], [first, second]));
}
