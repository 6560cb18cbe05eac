import { type Event, eventsFor, plainEvent, QUARTER } from "./event";
import type { Pitch } from "./pitch";

/** Accompaniment figures: how an instrument moves on a held chord. */
export const FIGURES = [
  "sustain",
  "pulse",
  "afterbeat",
  "syncope",
  "tremolo",
  "quarters",
  "strokes",
  "hit",
  "arpeggio",
  "triplets",
] as const;
export type Figure = (typeof FIGURES)[number];

export function isFigure(name: string): name is Figure {
  return FIGURES.some((figure) => figure === name);
}

/** Whether the figure breaks a chord of three voices on one instrument. */
export function isBroken(figure: Figure): boolean {
  return figure === "arpeggio" || figure === "triplets";
}

const EIGHTH = QUARTER / 2;

/**
 * The figure on one chord.
 *
 * @param voices its pitches, highest first; broken figures expect three.
 * @param ticks a whole number of quarters.
 */
export function drawFigure(figure: Figure, voices: readonly Pitch[], ticks: number): Event[] {
  const chord = [...voices].reverse();
  const beats = ticks / QUARTER;
  switch (figure) {
    case "sustain":
      return eventsFor(ticks, chord);
    case "pulse":
      return repeated(2 * beats, [note("eighth", chord)]);
    case "tremolo":
      return repeated(4 * beats, [note("16th", chord)]);
    case "quarters":
      return repeated(beats, [staccato(note("quarter", chord))]);
    case "strokes":
      return [...repeated(beats - 1, [note("quarter", chord)]), note("quarter", [])];
    case "afterbeat":
      return repeated(beats, [note("eighth", []), staccato(note("eighth", chord))]);
    case "syncope":
      return syncope(chord, ticks);
    case "hit":
      return [note("quarter", chord), ...restsFrom(QUARTER, ticks)];
    case "arpeggio":
      return brokenChord(chord, [0, 1, 2, 1], 2 * beats, "eighth", false);
    case "triplets":
      return brokenChord(chord, [0, 1, 2], 3 * beats, "eighth", true);
  }
}

/** Rests from one tick to another, split on the beats of a 4/4 bar and never dotted. */
export function restsFrom(start: number, end: number): Event[] {
  const rests: Event[] = [];
  for (let at = start; at < end; ) {
    const size = [4 * QUARTER, 2 * QUARTER, QUARTER, EIGHTH, EIGHTH / 2].find(
      (ticks) => at % ticks === 0 && at + ticks <= end,
    );
    if (size === undefined) throw new RangeError(`No rest from ${at} to ${end}`);
    rests.push(...eventsFor(size));
    at += size;
  }
  return rests;
}

function note(name: "quarter" | "eighth" | "16th", pitches: readonly Pitch[]): Event {
  return plainEvent({ name, dots: 0, triplet: false }, pitches);
}

function staccato(event: Event): Event {
  return { ...event, articulations: ["staccato"] };
}

function repeated(times: number, events: readonly Event[]): Event[] {
  return Array.from({ length: times }, () => events).flat();
}

function syncope(chord: readonly Pitch[], ticks: number): Event[] {
  if (ticks < 2 * QUARTER) return repeated(2, [note("eighth", chord)]);
  const inner = repeated(ticks / QUARTER - 1, [note("quarter", chord)]);
  return [note("eighth", chord), ...inner, note("eighth", chord)];
}

function brokenChord(
  chord: readonly Pitch[],
  pattern: readonly number[],
  count: number,
  name: "eighth",
  triplet: boolean,
): Event[] {
  return Array.from({ length: count }, (_, i) => {
    const pitch = chord[pattern[i % pattern.length] ?? 0];
    return plainEvent({ name, dots: 0, triplet }, pitch ? [pitch] : []);
  });
}
