import type { Note } from "@/lib/score/note";
import type { Part } from "@/lib/score/part";
import { addQuarters, compareQuarters, type Quarters } from "@/lib/score/quarters";

interface PedalSpan {
  readonly from: Quarters;
  readonly to: Quarters;
}

/**
 * Tells of each note of a part whether one marked pedal holds it from its onset to its end. A change of pedal ends one
 * and begins the next (MusicXML 4.0, `pedal`); pedalling that is not marked is not guessed.
 */
export function findPedalled(part: Part): (note: Pick<Note, "onset" | "duration">) => boolean {
  const spans = findSpans(part);
  return ({ onset, duration }) => {
    const end = addQuarters(onset, duration);
    return spans.some(({ from, to }) => compareQuarters(from, onset) <= 0 && compareQuarters(end, to) <= 0);
  };
}

/** A pedal that the score never lifts holds nothing that we know of. */
function findSpans(part: Part): PedalSpan[] {
  const spans: PedalSpan[] = [];
  let down: Quarters | null = null;
  for (const direction of part.directions.toSorted((a, b) => compareQuarters(a.onset, b.onset))) {
    if (direction.kind !== "pedal") continue;
    const { type, onset } = direction;
    if (down !== null && /^(stop|change|discontinue)$/.test(type)) spans.push({ from: down, to: onset });
    if (/^(start|change|resume)$/.test(type)) down = onset;
    else if (/^(stop|discontinue)$/.test(type)) down = null;
  }
  return spans;
}
