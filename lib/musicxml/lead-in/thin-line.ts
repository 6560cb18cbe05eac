import type { Bar } from "@/lib/score/bar";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  laterOf,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import { beatsOf } from "../rewrite/metre-beats";
import type { LineNote } from "./find-top-line";

/** More in a bar cannot be read at the size of a cue. */
const mostNotesPerBar = 12;

/**
 * A line as a cue shows it: bars with a tremolo or with more than twelve notes keep what sounds on each beat.
 *
 * @param to where the cue ends.
 */
export function thinLine(line: readonly LineNote[], bars: readonly Bar[], to: Quarters): LineNote[] {
  return bars.flatMap((bar) => {
    const end = earlierOf(addQuarters(bar.start, bar.length), to);
    const own = line.flatMap((note) => clip(note, bar.start, end));
    const isDense = own.length > mostNotesPerBar || own.some(({ isTremolo }) => isTremolo);
    return isDense ? onBeats(own, bar, end) : own;
  });
}

function clip(note: LineNote, from: Quarters, to: Quarters): LineNote[] {
  const onset = laterOf(note.onset, from);
  const duration = subtractQuarters(earlierOf(addQuarters(note.onset, note.duration), to), onset);
  return duration.num > 0 ? [{ ...note, onset, duration }] : [];
}

function onBeats(line: readonly LineNote[], bar: Bar, end: Quarters): LineNote[] {
  const { beat } = beatsOf(bar);
  const thinned: LineNote[] = [];
  for (let at = bar.start; compareQuarters(at, end) < 0; at = addQuarters(at, beat)) {
    const now = at;
    const sounding = line.find(
      ({ onset, duration }) =>
        compareQuarters(onset, now) <= 0 && compareQuarters(now, addQuarters(onset, duration)) < 0,
    );
    const duration = subtractQuarters(earlierOf(addQuarters(at, beat), end), at);
    if (sounding) thinned.push({ onset: at, duration, pitch: sounding.pitch, isTremolo: false });
  }
  return thinned;
}
