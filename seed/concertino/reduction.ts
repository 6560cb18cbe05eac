import { barRest, type Event, eventAt, eventsFor, plainEvent, QUARTER, withOnsets } from "./event";
import { restsFrom } from "./figures";
import type { InstrumentId } from "./instruments";
import { readLine } from "./notation";
import type { Orchestra } from "./orchestrate";
import { isSamePitch, midiOf, type Pitch, shiftOctaves } from "./pitch";

/** What a recipe may look at: the written-out orchestra and where it stands. */
export interface Place {
  readonly orchestra: Orchestra;
  /** Index of the bar in the movement. */
  readonly bar: number;
  /** The same bar counted from 0 at the start of the passage. */
  readonly passageBar: number;
  readonly barTicks: number;
}

/** A rule by which one hand takes something over from the orchestra, bar by bar. */
export type Recipe = (place: Place) => readonly Event[];

/** A recipe for some bars of a phrase (counted from 1; all when absent), as first or second voice of a hand. */
export interface Passage {
  readonly bars?: readonly [number, number];
  readonly voice?: 1 | 2;
  readonly play: Recipe;
}

/** A line as an instrument plays it, `octaves` higher. */
export function line(id: InstrumentId, octaves = 0): Recipe {
  return (place) =>
    barOf(place, id).map((event) =>
      withPitches(
        event,
        event.pitches.map((p) => shiftOctaves(p, octaves)),
      ),
    );
}

/** A line doubled in the octave below. */
export function octaves(id: InstrumentId): Recipe {
  return (place) =>
    barOf(place, id).map((event) => {
      const top = event.pitches.at(-1);
      return withPitches(event, top ? [shiftOctaves(top, -1), top] : []);
    });
}

interface ChordLimits {
  /** Most notes in the hand, the melody counted. */
  readonly notes?: number;
  /** Widest reach in semitones. */
  readonly span?: number;
}

/**
 * A melody with the inner harmony under it: on each beat the tones that `fill` plays are brought within reach of
 * the melody note, nearest first; tones that rub against it or double it are left out.
 */
export function melodyWithChords(
  lead: InstrumentId,
  fill: readonly InstrumentId[],
  { notes = 3, span = 12 }: ChordLimits = {},
): Recipe {
  return (place) =>
    withOnsets(barOf(place, lead)).map(({ event, onset }) => {
      const top = event.pitches.at(-1);
      if (!top) return withPitches(event, []);
      const takesChord = onset % QUARTER === 0 && event.ticks >= QUARTER / 2;
      const under = takesChord ? tonesUnder(top, soundingAt(place, fill, onset), notes - 1, span) : [];
      return withPitches(event, [...under, top]);
    });
}

/** Chords of several instruments that move in the same rhythm, brought within one hand from the top. */
export function chords(ids: readonly InstrumentId[], { notes = 3, span = 12 }: ChordLimits = {}): Recipe {
  return (place) => {
    const [lead] = ids;
    if (!lead) throw new RangeError("Chords of no instrument");
    return withOnsets(barOf(place, lead)).map(({ event, onset }) => {
      if (event.pitches.length === 0) return withPitches(event, []);
      return withPitches(event, withinHand(soundingAt(place, ids, onset), notes, span));
    });
  };
}

/**
 * The bass where it moves, the inner harmony on the eighths between: the bass note is struck where `bass` strikes,
 * the rest of the eighths take what `figure` plays, brought below `ceiling`.
 */
export function bassWithFigure(
  bass: InstrumentId,
  figure: readonly InstrumentId[],
  {
    ceiling = 62,
    notes = 2,
    octaves: shift = 0,
  }: { ceiling?: number; notes?: number; octaves?: number } = {},
): Recipe {
  return (place) => {
    const events: Event[] = [];
    for (let tick = 0; tick < place.barTicks; tick += QUARTER / 2) {
      const struck = eventAt(barOf(place, bass), tick);
      const root = struck?.attacked ? struck.event.pitches[0] : undefined;
      const inner = attackedAt(place, figure, tick).map((pitch) => belowCeiling(pitch, ceiling));
      const pitches = root ? [shiftOctaves(root, shift)] : withinHand(inner, notes, 12);
      events.push(...eventsFor(QUARTER / 2, pitches));
    }
    return joinRests(events);
  };
}

/** A spot written by hand for the piano (see notation.ts), one bar of text per bar of the passage. */
export function handMade(text: string): Recipe {
  return ({ passageBar, barTicks }) => {
    const bars = readLine(text, () => barTicks);
    const bar = bars[passageBar];
    if (!bar) throw new RangeError(`Hand-made passage "${text}" has no bar ${passageBar + 1}`);
    return bar;
  };
}

function barOf({ orchestra, bar }: Place, id: InstrumentId): readonly Event[] {
  return orchestra[id][bar] ?? [];
}

/** The event with other pitches and without the marks of its instrument. */
function withPitches(event: Event, pitches: readonly Pitch[]): Event {
  return { ...event, pitches, marks: [], graces: [] };
}

function soundingAt(place: Place, ids: readonly InstrumentId[], tick: number): Pitch[] {
  return ids.flatMap((id) => eventAt(barOf(place, id), tick)?.event.pitches ?? []);
}

function attackedAt(place: Place, ids: readonly InstrumentId[], tick: number): Pitch[] {
  return ids.flatMap((id) => {
    const found = eventAt(barOf(place, id), tick);
    return found?.attacked ? found.event.pitches : [];
  });
}

function tonesUnder(top: Pitch, tones: readonly Pitch[], count: number, span: number): Pitch[] {
  const ceiling = midiOf(top) - 3;
  const near = tones.map((tone) => belowCeiling(tone, ceiling)).filter((tone) => isFitUnder(tone, top, span));
  const highestFirst = distinct(near).sort((a, b) => midiOf(b) - midiOf(a));
  return highestFirst.slice(0, count).reverse();
}

function isFitUnder(tone: Pitch, top: Pitch, span: number): boolean {
  const distance = midiOf(top) - midiOf(tone);
  return distance <= span && ![0, 1, 2, 11].includes(distance % 12);
}

function withinHand(pitches: readonly Pitch[], notes: number, span: number): Pitch[] {
  const sorted = distinct(pitches).sort((a, b) => midiOf(b) - midiOf(a));
  const top = sorted[0];
  if (!top) return [];
  const near = sorted.filter((pitch) => midiOf(top) - midiOf(pitch) <= span);
  return near.slice(0, notes).reverse();
}

function distinct(pitches: readonly Pitch[]): Pitch[] {
  return pitches.filter((pitch, i) => pitches.findIndex((other) => isSamePitch(other, pitch)) === i);
}

/** The pitch in the highest octave that does not pass `ceiling` (a MIDI number). */
function belowCeiling(pitch: Pitch, ceiling: number): Pitch {
  return shiftOctaves(pitch, Math.floor((ceiling - midiOf(pitch)) / 12));
}

/** Joins neighbouring rests into the values that the beats allow. */
function joinRests(events: readonly Event[]): Event[] {
  const joined: Event[] = [];
  let start: number | undefined;
  const placed = withOnsets(events);
  for (const { event, onset } of placed) {
    if (event.pitches.length === 0) {
      start ??= onset;
      continue;
    }
    if (start !== undefined) joined.push(...restsFrom(start, onset));
    start = undefined;
    joined.push(event);
  }
  const end = placed.reduce((sum, { event }) => sum + event.ticks, 0);
  if (start === 0) return [barRest(end)];
  if (start !== undefined) joined.push(...restsFrom(start, end));
  return joined;
}

/** A gap in a second voice. */
export function hiddenGap(ticks: number): Event {
  return { ...plainEvent({ name: "whole", dots: 0, triplet: false }), ticks, hidden: true };
}
