import { groupByBar } from "./group-by-bar";
import type { Note } from "./note";
import type { Part } from "./part";
import type { PerformedBar, PerformedOrder } from "./performed-order";
import { addQuarters, compareQuarters, earlierOf, type Quarters, subtractQuarters } from "./quarters";
import type { Score } from "./score";

/** A stretch of performed time, end exclusive. */
interface PerformedSpan {
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

/**
 * The notes of a bar in performed time, as far as the piece of the bar lets them sound. A note that began before the
 * piece is over: what goes on sounding across a cut is not this note.
 */
function placeInBar(notes: readonly Note[], barStart: Quarters, performed: PerformedBar): PlayingSpan[] {
  const [from, to] = [addQuarters(barStart, performed.from), addQuarters(barStart, performed.to)];
  const shift = subtractQuarters(performed.start, from);
  const end = addQuarters(to, shift);
  return notes.flatMap(({ id, onset, duration }) => {
    if (compareQuarters(onset, from) < 0 || compareQuarters(onset, to) >= 0) return [];
    const performedFrom = addQuarters(onset, shift);
    const performedTo = earlierOf(addQuarters(performedFrom, duration), end);
    return [{ performedFrom, performedTo, firstNoteId: id, lastNoteId: id }];
  });
}

function placeNotes(score: Score, order: PerformedOrder, part: Part): PlayingSpan[] {
  const byBar = groupByBar(part.notes.filter(isPlayed));
  return order.bars.flatMap((performed) => {
    const barStart = score.bars[performed.barIndex]?.start;
    return barStart ? placeInBar(byBar.get(performed.barIndex) ?? [], barStart, performed) : [];
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
