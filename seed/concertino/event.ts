import type { Interval, Pitch } from "./pitch";
import { transposePitch } from "./pitch";

/** Ticks in a quarter note: divisible down to 32nds and eighth-note triplets. */
export const QUARTER = 24;
/** Ticks in a full 4/4 bar. */
export const BAR = 4 * QUARTER;

export type ValueName = "whole" | "half" | "quarter" | "eighth" | "16th" | "32nd";

/** A written note value. `triplet` is three in the time of two. */
export interface NoteValue {
  readonly name: ValueName;
  readonly dots: 0 | 1;
  readonly triplet: boolean;
}

export type Articulation = "staccato" | "accent" | "tenuto" | "strong-accent";

/** Something written beside the notes, at the onset of an event. */
export type Mark =
  | { readonly kind: "dynamic"; readonly text: string }
  | { readonly kind: "wedge"; readonly type: "crescendo" | "diminuendo" | "stop" }
  | { readonly kind: "words"; readonly text: string };

/** One chord, note or rest (no pitches) of one voice, in sounding pitch. */
export interface Event {
  readonly ticks: number;
  readonly value: NoteValue;
  readonly pitches: readonly Pitch[];
  /** Tied to the next event of the voice, for each pitch that the next event has too. */
  readonly tied: boolean;
  readonly slurStart: boolean;
  readonly slurStop: boolean;
  readonly articulations: readonly Articulation[];
  readonly fermata: boolean;
  readonly trill: boolean;
  readonly graces: readonly Pitch[];
  readonly marks: readonly Mark[];
  /** A gap in a second voice: takes time, prints nothing. */
  readonly hidden: boolean;
  /** A rest that fills the bar. */
  readonly wholeBar: boolean;
}

/** The events of one voice, bar by bar. */
export type Line = readonly (readonly Event[])[];

const VALUE_TICKS: Record<ValueName, number> = {
  whole: BAR,
  half: 2 * QUARTER,
  quarter: QUARTER,
  eighth: QUARTER / 2,
  "16th": QUARTER / 4,
  "32nd": QUARTER / 8,
};

/** Length of a written value in ticks. */
export function ticksOf(value: NoteValue): number {
  const plain = VALUE_TICKS[value.name] * (value.dots ? 1.5 : 1);
  return value.triplet ? (plain * 2) / 3 : plain;
}

/** The plain or dotted values that fill `ticks`, longest first. */
export function valuesFor(ticks: number): NoteValue[] {
  const values: NoteValue[] = [];
  let left = ticks;
  while (left > 0) {
    const value = longestValueWithin(left);
    if (!value) throw new RangeError(`No written value for ${left} of ${ticks} ticks`);
    values.push(value);
    left -= ticksOf(value);
  }
  return values;
}

function longestValueWithin(ticks: number): NoteValue | undefined {
  const names = Object.keys(VALUE_TICKS) as ValueName[];
  const all = names.flatMap((name): NoteValue[] => [
    { name, dots: 1, triplet: false },
    { name, dots: 0, triplet: false },
  ]);
  return all.filter((value) => Number.isInteger(ticksOf(value))).find((value) => ticksOf(value) <= ticks);
}

/** An event of a given value with nothing on it. */
export function plainEvent(value: NoteValue, pitches: readonly Pitch[] = []): Event {
  return {
    ticks: ticksOf(value),
    value,
    pitches,
    tied: false,
    slurStart: false,
    slurStop: false,
    articulations: [],
    fermata: false,
    trill: false,
    graces: [],
    marks: [],
    hidden: false,
    wholeBar: false,
  };
}

/** Notes or rests of any length, as tied values where one value does not hold it. */
export function eventsFor(ticks: number, pitches: readonly Pitch[] = []): Event[] {
  const values = valuesFor(ticks);
  return values.map((value, i) => ({
    ...plainEvent(value, pitches),
    tied: pitches.length > 0 && i < values.length - 1,
  }));
}

/** A full-bar rest. */
export function barRest(ticks: number): Event {
  return { ...plainEvent({ name: "whole", dots: 0, triplet: false }), ticks, wholeBar: true };
}

/** Applies a change to every pitch of a line. */
export function mapPitches(line: Line, change: (pitch: Pitch) => Pitch): Line {
  return line.map((bar) =>
    bar.map((event) => ({
      ...event,
      pitches: event.pitches.map(change),
      graces: event.graces.map(change),
    })),
  );
}

/** A line moved by an interval, spelling kept. */
export function transposeLine(line: Line, interval: Interval): Line {
  return mapPitches(line, (pitch) => transposePitch(pitch, interval));
}

/** Events of a bar with their onsets in ticks from the start of the bar. */
export function withOnsets(bar: readonly Event[]): { event: Event; onset: number }[] {
  let onset = 0;
  return bar.map((event) => {
    const placed = { event, onset };
    onset += event.ticks;
    return placed;
  });
}

/** The event that sounds at `tick`, and whether it begins there. */
export function eventAt(
  bar: readonly Event[],
  tick: number,
): { event: Event; attacked: boolean } | undefined {
  const found = withOnsets(bar).find(({ event, onset }) => onset <= tick && tick < onset + event.ticks);
  return found && { event: found.event, attacked: found.onset === tick };
}
