import {
  addQuarters,
  type Quarters,
  quartersAsNumber,
  scaleQuarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import type { TempoMap } from "@/lib/score/tempo-map";
import { readWrittenClock } from "@/lib/score/written-seconds";
import { type BarOptions, findBarOptions } from "./bar-strains";
import type { TimedNote } from "./hand-stroke";
import type { HandsProfile } from "./hands-profile";
import { findStruckNotes, type StruckNote } from "./struck-note";

/** What each bar of the piece asks of these hands; any tempo can be answered from it. */
export interface HandsReport {
  readonly hands: HandsProfile;
  /** By bar index. */
  readonly bars: readonly BarDemand[];
}

export interface BarDemand {
  readonly barIndex: number;
  /** Null for a bar in which the pianist rests. */
  readonly options: BarOptions | null;
}

/** Moments before a bar that tell where the hands come from: as many as the longest rate needs. */
const momentsBefore = 5;

/**
 * How the pianist's part lies under these hands, bar by bar in the written order. Each way of sharing a bar between the
 * hands is looked at, and the easiest counts.
 *
 * @param map by which seconds are counted.
 */
export function assessHands(score: Score, map: TempoMap, hands: HandsProfile): HandsReport {
  const notes = timeNotes(score, map);
  let next = 0;
  const bars = score.bars.map(({ index: barIndex }): BarDemand => {
    const first = next;
    while (notes[next] && (notes[next] as TimedNote).barIndex <= barIndex) next += 1;
    if (first === next) return { barIndex, options: null };
    const near = notes.slice(stepBack(notes, first), next);
    return { barIndex, options: findBarOptions(score, near, barIndex, hands) };
  });
  return { hands, bars };
}

function timeNotes(score: Score, map: TempoMap): TimedNote[] {
  const secondsAt = readWrittenClock(map);
  const notes = findStruckNotes(score);
  const timed = notes
    .flatMap((note) => writeOut(note, secondsAt))
    .map((note) => ({
      ...note,
      seconds: secondsAt(note.onset),
      endSeconds: secondsAt(note.end),
    }));
  const isInOrder = timed.length === notes.length;
  return isInOrder ? timed : timed.sort((a, b) => a.seconds - b.seconds || a.midi - b.midi);
}

/** More strokes a second than this nobody counts in a tremolo. From memory. */
const mostStrokes = 9;

/** The strokes of a note with a tremolo sign, one by one; as many as the sign asks for, or as can be told apart. */
function writeOut(note: StruckNote, secondsAt: (written: Quarters) => number): StruckNote[] {
  if (note.strokesPerQuarter === 0) return [note];
  const length = subtractQuarters(note.end, note.onset);
  const seconds = secondsAt(note.end) - secondsAt(note.onset);
  const asked = Math.round(note.strokesPerQuarter * quartersAsNumber(length));
  const count = Math.max(1, Math.min(asked, Math.floor(seconds * mostStrokes)));
  const after = (strokes: number) => addQuarters(note.onset, scaleQuarters(length, strokes, count));
  return Array.from({ length: count }, (_, index) => ({
    ...note,
    onset: after(index),
    end: after(index + 1),
  }));
}

/** Index of the first note of the moments before `first`. */
function stepBack(notes: readonly TimedNote[], first: number): number {
  let index = first;
  for (let moment = 0; moment < momentsBefore && index > 0; moment += 1) {
    const { seconds } = notes[index - 1] as TimedNote;
    while (index > 0 && (notes[index - 1] as TimedNote).seconds === seconds) index -= 1;
  }
  return index;
}
