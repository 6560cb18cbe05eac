import type { Note } from "@/lib/score/note";
import type { Part } from "@/lib/score/part";
import { midiNumber, type Pitch } from "@/lib/score/pitch";
import { isPlayed } from "@/lib/score/playing-spans";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  isEqualQuarters,
  laterOf,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";

/** A note of a line; time from the start of the piece. */
export interface LineNote {
  readonly onset: Quarters;
  readonly duration: Quarters;
  /** As it sounds. */
  readonly pitch: Pitch;
  /** One chord of a tremolo to and fro. */
  readonly isTremolo: boolean;
}

/**
 * The highest sounding line of some parts between two times: of each chord its top note, until something higher, or
 * after it something else, is struck. What is held over from before begins the line.
 */
export function findTopLine(parts: readonly Part[], from: Quarters, to: Quarters): LineNote[] {
  const line: LineNote[] = [];
  for (const note of notesBetween(parts, from, to)) {
    const last = line.at(-1);
    if (!last || compareQuarters(endOf(last), note.onset) <= 0) addTo(line, note);
    else if (midiNumber(note.pitch) > midiNumber(last.pitch)) {
      line.pop();
      const before = subtractQuarters(note.onset, last.onset);
      if (before.num > 0) line.push({ ...last, duration: before });
      addTo(line, note);
    }
  }
  return line;
}

const endOf = ({ onset, duration }: Pick<LineNote, "onset" | "duration">): Quarters =>
  addQuarters(onset, duration);

interface Heard extends LineNote {
  readonly isHeld: boolean;
}

/** A tied note goes on with the one before. */
function addTo(line: LineNote[], { isHeld, ...note }: Heard): void {
  const last = line.at(-1);
  const goesOn =
    last &&
    isHeld &&
    isEqualQuarters(endOf(last), note.onset) &&
    midiNumber(last.pitch) === midiNumber(note.pitch);
  if (goesOn) line[line.length - 1] = { ...last, duration: addQuarters(last.duration, note.duration) };
  else line.push(note);
}

/** By onset, of one onset the highest first. */
function notesBetween(parts: readonly Part[], from: Quarters, to: Quarters): Heard[] {
  return parts
    .flatMap(({ notes }) => notes)
    .flatMap((note) => hear(note, from, to))
    .sort((a, b) => compareQuarters(a.onset, b.onset) || midiNumber(b.pitch) - midiNumber(a.pitch));
}

function hear(note: Note, from: Quarters, to: Quarters): Heard[] {
  if (!isPlayed(note) || !note.sounding) return [];
  const onset = laterOf(note.onset, from);
  const duration = subtractQuarters(earlierOf(endOf(note), to), onset);
  if (duration.num <= 0) return [];
  const isTremolo = note.tremolo?.type === "start" || note.tremolo?.type === "stop";
  return [{ onset, duration, pitch: note.sounding, isTremolo, isHeld: note.tieStop }];
}
