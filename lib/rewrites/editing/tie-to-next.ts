import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { success } from "@/lib/score/result";
import { isRest, isToAndFro, nextInVoice, replaceEvents } from "./change-event";
import { cannot, type Edited } from "./edit-problem";
import { eventAt, isSamePitch, type NoteChoice } from "./event-place";
import { sayPitch } from "./say-pitch";

/** Holds a note, or all of a chord that comes again, into the next of its voice; takes the ties away when they are all there. */
export function tieToNext(terms: RewriteTerms, { place, pitch }: NoteChoice): Edited<RewriteTerms> {
  const event = eventAt(terms, place);
  if (isRest(event)) return cannot("This is a rest: there is nothing to hold.");
  if (isToAndFro(event)) return cannot("A tremolo to and fro has no last note to hold.");
  const next = nextInVoice(terms.events, event);
  if (next === null)
    return cannot("Nothing of this voice follows in these bars: there is no note to tie to.");
  const chosen = event.pitches.flatMap((each, index) =>
    pitch === null || isSamePitch(each, pitch) ? [index] : [],
  );
  const tieable = chosen.filter((index) => {
    const own = event.pitches[index];
    return own && next.pitches.some((each) => isSamePitch(each, own));
  });
  if (tieable.length === 0)
    return cannot(
      pitch === null
        ? "No note of this chord comes again in the next."
        : `${sayPitch(pitch)} does not come next.`,
    );
  const isOn = tieable.every((index) => event.tied.includes(index));
  const others = event.tied.filter((index) => !tieable.includes(index));
  const tied = isOn ? others : [...others, ...tieable].sort((a, b) => a - b);
  return success(replaceEvents(terms, [event], [{ ...event, tied }]));
}
