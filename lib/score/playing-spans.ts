import type { Note } from "./note";
import type { Part } from "./part";
import type { PerformedBar, PerformedOrder } from "./performed-order";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  laterOf,
  type Quarters,
  subtractQuarters,
} from "./quarters";
import type { Score } from "./score";

/** A stretch of performed time, end exclusive. */
export interface PerformedSpan {
  readonly performedFrom: Quarters;
  readonly performedTo: Quarters;
}

/** A stretch in which a part plays without a gap; ties and notes that touch are one stretch. */
export interface PlayingSpan extends PerformedSpan {
  readonly firstNoteId: string;
  readonly lastNoteId: string;
}

/**
 * Notes that a player plays: full size and printed. Cue-size and hidden notes are for reading along or for playback;
 * grace notes belong to the note they lead to.
 */
export function isPlayed(note: Note): boolean {
  return !note.isCue && !note.isHidden && !note.isGrace && note.duration.num > 0;
}

export function notesByBar(notes: readonly Note[]): ReadonlyMap<number, Note[]> {
  const byBar = new Map<number, Note[]>();
  for (const note of notes) {
    const bar = byBar.get(note.barIndex);
    if (bar) bar.push(note);
    else byBar.set(note.barIndex, [note]);
  }
  return byBar;
}

/** The note in performed time, as far as the piece of the bar lets it sound; null when it begins outside. */
export function placeNote(note: Note, barStart: Quarters, performed: PerformedBar): PerformedSpan | null {
  const offset = subtractQuarters(note.onset, barStart);
  const end = addQuarters(offset, note.duration);
  const from = laterOf(offset, performed.from);
  // A note that began before a join is over there: what goes on sounding across a cut is not this note.
  const begins = compareQuarters(offset, performed.from) >= 0 && compareQuarters(offset, performed.to) < 0;
  if (!begins) return null;
  const inOrder = (place: Quarters) => addQuarters(performed.start, subtractQuarters(place, performed.from));
  return { performedFrom: inOrder(from), performedTo: inOrder(earlierOf(end, performed.to)) };
}

function placeNotes(score: Score, order: PerformedOrder, part: Part): PlayingSpan[] {
  const byBar = notesByBar(part.notes.filter(isPlayed));
  return order.bars.flatMap((performed) => {
    const barStart = score.bars[performed.barIndex]?.start;
    if (!barStart) return [];
    return (byBar.get(performed.barIndex) ?? []).flatMap((note) => {
      const span = placeNote(note, barStart, performed);
      return span ? [{ ...span, firstNoteId: note.id, lastNoteId: note.id }] : [];
    });
  });
}

/** Where a part plays, in performed order. */
export function findPlayingSpans(score: Score, order: PerformedOrder, part: Part): PlayingSpan[] {
  const placed = placeNotes(score, order, part).toSorted(
    (a, b) =>
      compareQuarters(a.performedFrom, b.performedFrom) || compareQuarters(a.performedTo, b.performedTo),
  );
  const spans: PlayingSpan[] = [];
  for (const note of placed) {
    const last = spans.at(-1);
    if (!last || compareQuarters(note.performedFrom, last.performedTo) > 0) {
      spans.push(note);
      continue;
    }
    const goesOn = compareQuarters(note.performedTo, last.performedTo) > 0;
    if (goesOn)
      spans[spans.length - 1] = { ...last, performedTo: note.performedTo, lastNoteId: note.lastNoteId };
  }
  return spans;
}
