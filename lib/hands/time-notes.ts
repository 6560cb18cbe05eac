import {
  addQuarters,
  type Quarters,
  quartersAsNumber,
  scaleQuarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { TimedNote } from "./hand-stroke";
import type { StruckNote } from "./struck-note";

/**
 * Notes with their moments, those with a tremolo sign stroke by stroke; by time, then from the lowest.
 *
 * @param secondsAt clock time of a written time.
 */
export function timeNotes(
  notes: readonly StruckNote[],
  secondsAt: (written: Quarters) => number,
): TimedNote[] {
  const timed = notes
    .flatMap((note) => writeOut(note, secondsAt))
    .map((note) => ({
      ...note,
      seconds: secondsAt(note.onset),
      endSeconds: secondsAt(note.end),
    }));
  return timed.sort((a, b) => a.seconds - b.seconds || a.midi - b.midi);
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
