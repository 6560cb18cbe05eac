import type { RewriteEvent } from "@/lib/edition/rewrite-terms";
import type { Part } from "@/lib/score/part";
import type { Pitch } from "@/lib/score/pitch";
import type { Position } from "@/lib/score/position";
import { addQuarters, compareQuarters, type Quarters, subtractQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { atPitch, writtenPitch } from "@/lib/score/transposition";
import type { VoiceEvent } from "../rewrite/written-piece";
import { type Entry, leadInStart } from "./find-entries";
import { findTopLine, type LineNote } from "./find-top-line";
import { octaveForStaff } from "./octave-for-staff";
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
  const octaves = octaveForStaff(
    written.map(({ pitch }) => pitch),
    solo.clefs.findLast(({ staff, onset }) => staff === 1 && compareQuarters(onset, start.onset) <= 0),
  );
  const shifted = written.map((note) => ({
    ...note,
    pitch: { ...note.pitch, octave: note.pitch.octave + octaves },
  }));
  const events = bars.map((bar): [number, VoiceEvent[]] => [bar.index, eventsIn(shifted, bar, to)]);
  const barOfStart = bars.findLast((bar) => compareQuarters(bar.start, start.onset) <= 0) ?? first;
  return {
    from: { barIndex: barOfStart.index, offset: subtractQuarters(start.onset, barOfStart.start) },
    bars: new Map(events.filter(([, own]) => own.length > 0)),
    octaves,
  };
}

function transpositionAt(solo: Part, time: Quarters) {
  const change = solo.transpositions.findLast(({ onset }) => compareQuarters(onset, time) <= 0);
  return change?.transposition ?? atPitch;
}

/** The notes of a bar with the rests between and behind them; the line is silent before its first note. */
function eventsIn(
  line: readonly LineNote[],
  bar: { readonly index: number; readonly start: Quarters; readonly length: Quarters },
  to: Quarters,
): VoiceEvent[] {
  const barEnd = addQuarters(bar.start, bar.length);
  const end = compareQuarters(barEnd, to) < 0 ? barEnd : to;
  const own = line.filter(
    ({ onset }) => compareQuarters(onset, bar.start) >= 0 && compareQuarters(onset, end) < 0,
  );
  const begins = line[0] !== undefined && compareQuarters(line[0].onset, bar.start) < 0;
  let at = begins ? bar.start : (own[0]?.onset ?? end);
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
