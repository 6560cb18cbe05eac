import type { RewriteEvent, RewritePitch, RewriteTerms } from "@/lib/edition/rewrite-terms";
import { isEqualQuarters } from "@/lib/score/quarters";
import { midiOf } from "../bar-event";
import { byPlace, endOf, isSamePitch, offsetOf } from "./event-place";

/** The two sides of an event: what is struck, and in a tremolo to and fro what it goes over to. */
export interface Sides {
  readonly pitches: readonly RewritePitch[];
  readonly other: readonly RewritePitch[];
}

export const sidesOf = ({ pitches, tremolo }: RewriteEvent): Sides => ({
  pitches,
  other: tremolo?.other ?? [],
});

export const isRest = ({ pitches }: RewriteEvent): boolean => pitches.length === 0;
export const isToAndFro = ({ tremolo }: RewriteEvent): boolean => (tremolo?.other.length ?? 0) > 0;

const fromTheLowest = (pitches: readonly RewritePitch[]): RewritePitch[] =>
  [...pitches].sort((a, b) => midiOf(a) - midiOf(b));

/**
 * An event with other pitches. What needs them goes with them: ties of a note that is gone, a roll of one note, everything
 * of a rest. A tremolo to and fro that has lost a side is held.
 */
export function withSides(event: RewriteEvent, sides: Sides): RewriteEvent {
  const hasLostSide = isToAndFro(event) && (sides.other.length === 0 || sides.pitches.length === 0);
  const [pitches, other] = [fromTheLowest(sides.pitches), fromTheLowest(sides.other)];
  const struck = hasLostSide && pitches.length === 0 ? other : pitches;
  const tied = event.tied.map((place) => event.pitches[place]);
  const isTied = (pitch: RewritePitch) => tied.some((each) => each && isSamePitch(each, pitch));
  const keepsTremolo = event.tremolo !== null && struck.length > 0 && !hasLostSide;
  return {
    ...event,
    pitches: struck,
    tied: struck.flatMap((pitch, place) => (isTied(pitch) ? [place] : [])),
    tremolo: keepsTremolo && event.tremolo ? { ...event.tremolo, other } : null,
    isRolled: event.isRolled && struck.length > 1,
    isAccented: event.isAccented && struck.length > 0,
  };
}

/**
 * A rewrite in which some events have given way to others, in order. Ties that led to a note which is no longer there go.
 *
 * @param gone events of `terms`, the very objects.
 */
export function replaceEvents(
  terms: RewriteTerms,
  gone: readonly RewriteEvent[],
  come: readonly RewriteEvent[],
): RewriteTerms {
  const events = [...terms.events.filter((event) => !gone.includes(event)), ...come].sort(byPlace);
  const changed = new Set(come);
  const mended = events.map((event) => {
    const next = nextInVoice(events, event);
    const isNear = changed.has(event) || (next !== null && changed.has(next));
    return isNear && next !== null ? withoutLooseTies(event, next) : event;
  });
  return { ...terms, events: mended };
}

function withoutLooseTies(event: RewriteEvent, next: RewriteEvent): RewriteEvent {
  const tied = event.tied.filter((place) => {
    const pitch = event.pitches[place];
    return pitch !== undefined && next.pitches.some((each) => isSamePitch(each, pitch));
  });
  return tied.length === event.tied.length ? event : { ...event, tied };
}

/** The event that begins in the same voice where one ends; null when none does, as at the end of the rewrite. */
export function nextInVoice(events: readonly RewriteEvent[], event: RewriteEvent): RewriteEvent | null {
  const isOfVoice = ({ staff, voice }: RewriteEvent) => staff === event.staff && voice === event.voice;
  const { barIndex } = event.at;
  const end = endOf(event);
  const here = events.find(
    (other) => isOfVoice(other) && other.at.barIndex === barIndex && isEqualQuarters(offsetOf(other), end),
  );
  if (here) return here;
  // The bar ends where the last of all its events does.
  const isLast = events.every(({ at, ...other }) => {
    const last = endOf({ at, ...other });
    return at.barIndex !== barIndex || last.num * end.den <= end.num * last.den;
  });
  if (!isLast) return null;
  return (
    events.find(
      (other) => isOfVoice(other) && other.at.barIndex === barIndex + 1 && offsetOf(other).num === 0,
    ) ?? null
  );
}
