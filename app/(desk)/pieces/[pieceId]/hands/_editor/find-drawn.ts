import type { RewriteEvent, RewritePitch } from "@/lib/edition/rewrite-terms";
import type { DrawnPassage } from "@/lib/engrave/passage/drawn-passage";
import { endOf, isSamePitch, offsetOf } from "@/lib/rewrites/editing/event-place";
import { compareQuarters, readQuarters } from "@/lib/score/quarters";

/** An event's pictures: every note head that stands for one of its pitches, and its rests. */
export interface DrawnEvent {
  readonly event: RewriteEvent;
  readonly notes: readonly { readonly id: string; readonly pitch: RewritePitch }[];
  readonly restIds: readonly string[];
}

/** Finds the events of a rewrite in the passage that was drawn with it, in the order of time, right hand first. */
export function findDrawn(passage: DrawnPassage, events: readonly RewriteEvent[]): DrawnEvent[] {
  return [...events].sort(byTime).map((event) => {
    const isOf = isIn(event);
    return {
      event,
      notes: passage.notes.filter(isOf).flatMap(({ id, step, alter, octave }) => {
        const pitch = { step, alter, octave };
        const all = [...event.pitches, ...(event.tremolo?.other ?? [])];
        return all.some((each) => isSamePitch(each, pitch)) ? [{ id, pitch }] : [];
      }),
      restIds: passage.rests.filter(isOf).map(({ id }) => id),
    };
  });
}

interface Drawn {
  readonly barIndex: number;
  readonly offset: string;
  readonly staff: number;
  readonly voice: string;
  readonly isOssia: boolean;
}

function isIn(event: RewriteEvent): (drawn: Drawn) => boolean {
  const [from, to] = [offsetOf(event), endOf(event)];
  return ({ barIndex, offset, staff, voice, isOssia }) => {
    if (isOssia || barIndex !== event.at.barIndex || staff !== event.staff || voice !== `${event.voice}`)
      return false;
    const at = readQuarters(offset);
    return at !== null && compareQuarters(from, at) <= 0 && compareQuarters(at, to) < 0;
  };
}

/** By bar and place, then from the right hand to the left. */
export function byTime(a: RewriteEvent, b: RewriteEvent): number {
  return (
    a.at.barIndex - b.at.barIndex ||
    compareQuarters(offsetOf(a), offsetOf(b)) ||
    a.staff - b.staff ||
    a.voice - b.voice
  );
}
