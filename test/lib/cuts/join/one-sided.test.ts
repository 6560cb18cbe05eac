import { describe, expect, it } from "vitest";
import { SideHearer } from "@/lib/cuts/join/side-hearer";
import type { Note } from "@/lib/score/note";
import { onsetOf } from "@/lib/score/onset-of";
import type { Position } from "@/lib/score/position";
import { compareQuarters, noQuarters, quarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { concertino } from "./hear-concertino";

/** The concertino with these notes only, and with the outermost of each staff, which are far from the places below. */
function keepNotes(score: Score, isKept: (note: Note) => boolean): Score {
  const parts = score.parts.map((part) => {
    const outermost = new Set(
      [1, 2].flatMap((staff) => {
        const own = part.notes.filter((note) => note.staff === staff);
        return [own[0]?.id, own.at(-1)?.id];
      }),
    );
    return { ...part, notes: part.notes.filter((note) => isKept(note) || outermost.has(note.id)) };
  });
  return { ...score, parts };
}

/** Ends of slurs and ties lie in notes, so that a place is chosen that none goes across. */
const places: readonly Position[] = [9, 17, 97, 120].map((barIndex) => ({ barIndex, offset: noQuarters }));
const inside: Position = { barIndex: 41, offset: quarters(2) };

describe("one side of a place", () => {
  it.each([...places, inside])("before it does not know what follows ($barIndex)", (position) => {
    const time = onsetOf(concertino, position);
    const without = keepNotes(concertino, ({ onset }) => compareQuarters(onset, time) < 0);
    const [whole, alone] = [
      new SideHearer(concertino).before(position),
      new SideHearer(without).before(position),
    ];
    expect({ ...alone, slurs: 0 }).toEqual({ ...whole, slurs: 0 });
  });

  it.each(places)("from it on does not know what came before ($barIndex)", (position) => {
    const time = onsetOf(concertino, position);
    const without = keepNotes(concertino, ({ onset }) => compareQuarters(onset, time) >= 0);
    const [whole, alone] = [
      new SideHearer(concertino).after(position),
      new SideHearer(without).after(position),
    ];
    expect({ ...alone, slurs: 0 }).toEqual({ ...whole, slurs: 0 });
  });

  it("is missing at the ends of the piece", () => {
    const hearer = new SideHearer(concertino);
    const last = concertino.bars.at(-1);
    if (!last) throw new Error("No bars");
    expect(hearer.before({ barIndex: 0, offset: noQuarters })).toBeNull();
    expect(hearer.after({ barIndex: last.index, offset: last.length })).toBeNull();
  });
});
