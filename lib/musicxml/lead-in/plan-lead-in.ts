import type { RewriteEvent } from "@/lib/edition/rewrite-terms";
import type { ClefChange, Part } from "@/lib/score/part";
import type { Pitch } from "@/lib/score/pitch";
import type { Position } from "@/lib/score/position";
import { addQuarters, compareQuarters, laterOf, type Quarters, subtractQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { atPitch, writtenPitch } from "@/lib/score/transposition";
import type { VoiceEvent } from "../rewrite/written-piece";
import { type Entry, leadInStart } from "./find-entries";
import { findTopLine, type LineNote } from "./find-top-line";
import { octaveForStaff } from "./octave-for-staff";
import { readableSteps, stepsFromMiddle } from "./staff-distance";
import { thinLine } from "./thin-line";

/** The line before an entry as it stands on the soloist's staff. */
export interface LeadIn {
  readonly from: Position;
  /** What sounds in each bar, rests within the line included. */
  readonly bars: ReadonlyMap<number, readonly VoiceEvent[]>;
  /** Octaves by which it is written higher than it sounds. */
  readonly octaves: number;
}

/** @returns null when the reduction is silent before the entry. */
export function planLeadIn(
  score: Score,
  solo: Part,
  reductions: readonly Part[],
  entry: Entry,
): LeadIn | null {
  const from = leadInStart(entry);
  const bars = score.bars.slice(from.barIndex, entry.at.barIndex + 1);
  const [first, last] = [bars[0], score.bars[entry.at.barIndex]];
  if (!first || !last) return null;
  const to = addQuarters(last.start, entry.at.offset);
  const line = thinLine(findTopLine(reductions, first.start, to), bars, to);
  const [start] = line;
  if (!start) return null;
  const written = line.map((note) => ({
    ...note,
    pitch: writtenPitch(note.pitch, transpositionAt(solo, note.onset)),
  }));
  const clef = solo.clefs.findLast(
    ({ staff, onset }) => staff === 1 && compareQuarters(onset, start.onset) <= 0,
  );
  const octaves = octaveForStaff(
    written.map(({ pitch }) => pitch),
    clef,
  );
  const kept = written
    .map((note) => ({ ...note, pitch: { ...note.pitch, octave: note.pitch.octave + octaves } }))
    .filter(({ pitch }) => isLeading(pitch, clef));
  const barOfStart = bars.findLast((bar) => compareQuarters(bar.start, kept[0]?.onset ?? to) <= 0) ?? first;
  const begin = laterOf(start.onset, barOfStart.start);
  const events = bars.map((bar): [number, VoiceEvent[]] => [bar.index, eventsIn(kept, bar, begin, to)]);
  return {
    from: { barIndex: barOfStart.index, offset: subtractQuarters(begin, barOfStart.start) },
    bars: new Map(events.filter(([, own]) => own.length > 0)),
    octaves,
  };
}

/**
 * Whether a note belongs to the line that a player recognises. Where the right hand rests, the highest that sounds is
 * a note of the bass: far below the staff it is left out, as a rest.
 *
 * Source: common practice (a cue shows one voice in the player's own register, and no bass under it).
 */
function isLeading(written: Pitch, clef: ClefChange | undefined): boolean {
  return stepsFromMiddle(written, clef) >= -readableSteps;
}

function transpositionAt(solo: Part, time: Quarters) {
  const change = solo.transpositions.findLast(({ onset }) => compareQuarters(onset, time) <= 0);
  return change?.transposition ?? atPitch;
}

/** The notes of a bar with the rests before, between and behind them, from where the line begins. */
function eventsIn(
  line: readonly LineNote[],
  bar: { readonly index: number; readonly start: Quarters; readonly length: Quarters },
  from: Quarters,
  to: Quarters,
): VoiceEvent[] {
  const barEnd = addQuarters(bar.start, bar.length);
  const end = compareQuarters(barEnd, to) < 0 ? barEnd : to;
  const own = line.filter(
    ({ onset }) => compareQuarters(onset, bar.start) >= 0 && compareQuarters(onset, end) < 0,
  );
  let at = laterOf(bar.start, from);
  const events: VoiceEvent[] = [];
  const add = (onset: Quarters, length: Quarters, pitches: readonly Pitch[]) => {
    if (length.num > 0) events.push(eventOf(bar, onset, length, pitches));
  };
  for (const { onset, duration, pitch } of own) {
    add(at, subtractQuarters(onset, at), []);
    add(onset, duration, [pitch]);
    at = addQuarters(onset, duration);
  }
  add(at, subtractQuarters(end, at), []);
  return events;
}

function eventOf(
  bar: { readonly index: number; readonly start: Quarters },
  onset: Quarters,
  length: Quarters,
  pitches: readonly Pitch[],
): VoiceEvent {
  const terms: RewriteEvent = {
    at: { barIndex: bar.index, offset: "0" },
    lasts: "1",
    staff: 1,
    voice: 1,
    pitches: pitches.map(({ step, alter, octave }) => ({ step, alter, octave })),
    tied: [],
    tremolo: null,
    isRolled: false,
    isAccented: false,
  };

  return { at: subtractQuarters(onset, bar.start), length, terms, tiedFrom: new Set(), tiedTo: new Set() };
}
