import type { RewriteEvent, RewritePitch, RewriteTerms } from "@/lib/edition/rewrite-terms";
import { compareQuarters, quarters } from "@/lib/score/quarters";
import { success } from "@/lib/score/result";
import { midiOf } from "../bar-event";
import { isRest, replaceEvents, withSides } from "./change-event";
import { findChordFault } from "./check-chord";
import { cannot, type Edited } from "./edit-problem";
import { type EventPlace, eventAt, lengthOf } from "./event-place";

/** The same again, or to and fro between the lowest note and those over it. */
export interface TremoloWish {
  readonly way: "repeated" | "to and fro";
  /** Strokes through the stem, 1 to 4. */
  readonly strokes: number;
}

/** In quarter notes; on anything shorter nobody hears a tremolo. Ours. */
const shortest = quarters(1, 2);

/** Makes a note or chord a tremolo, or (null) one that is held: both sides of a tremolo are then struck together. */
export function setTremolo(
  terms: RewriteTerms,
  place: EventPlace,
  wish: TremoloWish | null,
): Edited<RewriteTerms> {
  const event = eventAt(terms, place);
  if (isRest(event)) return cannot("This is a rest: there is nothing to repeat.");
  const chord = togetherOf(event);
  if (wish === null) return wish === event.tremolo ? success(terms) : held(terms, event, chord);
  if (compareQuarters(lengthOf(event), shortest) < 0)
    return cannot("This is too short for a tremolo. Make it longer first.");
  const isBetween = wish.way === "to and fro";
  if (isBetween && chord.length < 2) return cannot("To and fro needs two notes at least. Add one first.");
  const [lowest, ...upper] = chord;
  const pitches = isBetween && lowest ? [lowest] : chord;
  const fault = findChordFault(pitches);
  if (fault !== null) return cannot(fault);
  const struck = withSides({ ...event, tremolo: null }, { pitches, other: [] });
  const written: RewriteEvent = {
    ...struck,
    // A tremolo to and fro has no last note to hold.
    tied: isBetween ? [] : struck.tied,
    tremolo: { strokes: wish.strokes, other: isBetween ? upper : [] },
    isRolled: false,
  };
  return success(replaceEvents(terms, [event], [written]));
}

function held(
  terms: RewriteTerms,
  event: RewriteEvent,
  chord: readonly RewritePitch[],
): Edited<RewriteTerms> {
  const fault = findChordFault(chord);
  if (fault !== null) return cannot(fault);
  const written = withSides({ ...event, tremolo: null }, { pitches: chord, other: [] });
  return success(replaceEvents(terms, [event], [written]));
}

/** Both sides, each key once, from the lowest. */
function togetherOf({ pitches, tremolo }: RewriteEvent): RewritePitch[] {
  const byKey = new Map<number, RewritePitch>();
  for (const pitch of [...pitches, ...(tremolo?.other ?? [])])
    if (!byKey.has(midiOf(pitch))) byKey.set(midiOf(pitch), pitch);
  return [...byKey.values()].sort((a, b) => midiOf(a) - midiOf(b));
}
