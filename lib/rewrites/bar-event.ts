import type { RewriteEvent, RewritePitch } from "@/lib/edition/rewrite-terms";
import { midiNumber } from "@/lib/score/pitch";
import { addQuarters, compareQuarters, type Quarters, writeQuarters } from "@/lib/score/quarters";

/** A `RewriteEvent` to compute with: its place is an offset in its bar. */
export interface BarEvent extends Omit<RewriteEvent, "at" | "lasts"> {
  readonly offset: Quarters;
  readonly length: Quarters;
}

export const endOf = ({ offset, length }: BarEvent): Quarters => addQuarters(offset, length);
export const isRest = ({ pitches }: BarEvent): boolean => pitches.length === 0;
export const midiOf = (pitch: RewritePitch): number => midiNumber(pitch);

/** Everything that an event sounds, both sides of a tremolo, from the lowest. */
export function soundedBy({ pitches, tremolo }: BarEvent): RewritePitch[] {
  return [...pitches, ...(tremolo?.other ?? [])].sort((a, b) => midiOf(a) - midiOf(b));
}

/** Whether two events strike the same keys. */
export const isSameChord = (a: BarEvent, b: BarEvent): boolean =>
  a.pitches.length === b.pitches.length &&
  a.pitches.every((pitch, index) => midiOf(pitch) === midiOf(b.pitches[index] ?? pitch));

/** Whether a place lies a whole number of these lengths from the start of its bar. @param length positive. */
export const isOnMultiple = (offset: Quarters, length: Quarters): boolean =>
  (offset.num * length.den) % (offset.den * length.num) === 0;

/** The same pitch by so many octaves higher. */
export const byOctaves = (pitch: RewritePitch, octaves: number): RewritePitch => ({
  ...pitch,
  octave: pitch.octave + octaves,
});

/** By staff, voice and place: the order in which they are kept. */
export function inOrder(events: readonly BarEvent[]): BarEvent[] {
  return [...events].sort(
    (a, b) => a.staff - b.staff || a.voice - b.voice || compareQuarters(a.offset, b.offset),
  );
}

/** An event with other pitches; ties of pitches that are gone go with them. */
export function withPitches(event: BarEvent, pitches: readonly RewritePitch[]): BarEvent {
  const kept = new Set(event.tied.map((index) => event.pitches[index]));
  const sorted = [...pitches].sort((a, b) => midiOf(a) - midiOf(b));
  return {
    ...event,
    pitches: sorted,
    tied: sorted.flatMap((pitch, index) => (kept.has(pitch) ? [index] : [])),
  };
}

/** For telling two versions of a bar apart. */
export function writeEvents(events: readonly BarEvent[]): string {
  return JSON.stringify(
    inOrder(events).map(({ offset, length, ...rest }) => [
      writeQuarters(offset),
      writeQuarters(length),
      rest,
    ]),
  );
}

/** Whether a bar was made another one. */
export const isChanged = (before: readonly BarEvent[], after: readonly BarEvent[]): boolean =>
  writeEvents(before) !== writeEvents(after);
