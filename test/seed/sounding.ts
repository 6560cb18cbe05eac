import { type BarPlan, compose } from "@/seed/concertino/compose";
import { BAR, type Event, eventAt, QUARTER, withOnsets } from "@/seed/concertino/event";
import { INSTRUMENT_IDS, type InstrumentId } from "@/seed/concertino/instruments";
import { midiOf, type Pitch } from "@/seed/concertino/pitch";
import type { PlantedBars, PlantedPosition } from "@/seed/concertino/planted";

export const composition = compose();

/** Index of the bar with a printed number. */
export function barIndex(label: string): number {
  const index = composition.bars.findIndex((bar) => bar.label === label);
  if (index < 0) throw new RangeError(`No bar ${label}`);
  return index;
}

/** Bar indices from one printed number to another, both included. */
export function barRange({ from, to }: PlantedBars): number[] {
  const start = barIndex(from);
  return Array.from({ length: barIndex(to) - start + 1 }, (_, i) => start + i);
}

/** Quarter notes from the start of the movement, in written order. */
export function quarterAt({ bar, quarter }: PlantedPosition): number {
  const before = composition.bars.slice(0, barIndex(bar));
  return before.reduce((sum, { ticks }) => sum + ticks / QUARTER, quarter);
}

export interface SoundingNote {
  readonly id: InstrumentId;
  readonly pitch: Pitch;
  readonly midi: number;
  readonly event: Event;
}

/** Everything that sounds in the orchestra, soloist included, at a tick of a bar. */
export function soundingNotes(bar: number, tick: number): SoundingNote[] {
  return INSTRUMENT_IDS.flatMap((id) => {
    const event = eventAt(composition.orchestra[id][bar] ?? [], tick)?.event;
    return (event?.pitches ?? []).map((pitch) => ({ id, pitch, midi: midiOf(pitch), event: event as Event }));
  });
}

export type HandName = "right" | "left";

/** MIDI numbers that one hand holds at a tick of a bar, lowest first. */
export function handAt(hand: HandName, bar: number, tick: number): number[] {
  const { first, second } = composition[hand];
  return [first[bar], second[bar]]
    .flatMap((voice) => (voice ? (eventAt(voice, tick)?.event.pitches ?? []) : []))
    .map(midiOf)
    .sort((a, b) => a - b);
}

/** The notes that a hand strikes in a bar, with their onsets. */
export function strokes(hand: HandName, bar: number): { onset: number; midis: number[] }[] {
  const events = withOnsets(composition[hand].first[bar] ?? []);
  return events
    .filter(({ event }) => event.pitches.length > 0)
    .map(({ event, onset }) => ({ onset, midis: event.pitches.map(midiOf) }));
}

/** The printed tempo that holds in a bar, in quarter notes a minute. */
export function tempoAt(bar: number): number {
  const marked = composition.bars.slice(0, bar + 1).findLast((plan: BarPlan) => plan.tempo);
  if (!marked?.tempo) throw new RangeError(`No tempo before bar ${bar}`);
  return marked.tempo.quartersPerMinute;
}

/** The next pitch of an instrument after an onset that differs from `midi`; undefined at a rest. */
export function nextPitchAfter(
  id: InstrumentId,
  bar: number,
  tick: number,
  midi: number,
): number | undefined {
  const line = composition.orchestra[id];
  const rest = line
    .slice(bar, bar + 2)
    .flatMap((events, i) => withOnsets(events).map(({ event, onset }) => ({ event, at: i * BAR + onset })));
  for (const { event } of rest.filter(({ at }) => at > tick)) {
    const top = event.pitches.at(-1);
    if (!top) return undefined;
    if (midiOf(top) !== midi) return midiOf(top);
  }
  return undefined;
}
