import { groupByBar } from "@/lib/score/group-by-bar";
import type { Note } from "@/lib/score/note";
import type { Part } from "@/lib/score/part";
import type { PerformedOrder } from "@/lib/score/performed-order";
import { isPlayed } from "@/lib/score/playing-spans";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  isEqualQuarters,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** A note where it is played. */
export interface PlayedNote {
  readonly note: Note;
  readonly performedFrom: Quarters;
  readonly performedTo: Quarters;
  /** A cut or the end of the bar's piece takes the end of the note. */
  readonly isBroken: boolean;
}

/** The notes of a part in performed order, chord members included; a cut note ends where the cut begins. */
export function findPlayedNotes(score: Score, order: PerformedOrder, part: Part): PlayedNote[] {
  const byBar = groupByBar(part.notes.filter(isPlayed));
  const played = order.bars.flatMap((performed) => {
    const start = score.bars[performed.barIndex]?.start;
    if (!start) return [];
    const [from, to] = [addQuarters(start, performed.from), addQuarters(start, performed.to)];
    const shift = subtractQuarters(performed.start, from);
    return (byBar.get(performed.barIndex) ?? []).flatMap((note): PlayedNote[] => {
      if (compareQuarters(note.onset, from) < 0 || compareQuarters(note.onset, to) >= 0) return [];
      const end = addQuarters(note.onset, note.duration);
      const until = earlierOf(end, to);
      return [
        {
          note,
          performedFrom: addQuarters(note.onset, shift),
          performedTo: addQuarters(until, shift),
          isBroken: !isEqualQuarters(until, end),
        },
      ];
    });
  });
  return played.toSorted((a, b) => compareQuarters(a.performedFrom, b.performedFrom));
}
