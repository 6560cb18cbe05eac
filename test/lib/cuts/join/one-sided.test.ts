import { describe, expect, it } from "vitest";
import { ChordSuccessions } from "@/lib/cuts/join/chord-successions";
import type { Side } from "@/lib/cuts/join/side";
import { SideHearer } from "@/lib/cuts/join/side-hearer";
import { measureSuccession, successionFeatures } from "@/lib/cuts/join/succession-features";
import type { Note } from "@/lib/score/note";
import { onsetOf } from "@/lib/score/onset-of";
import type { Position } from "@/lib/score/position";
import {
  addQuarters,
  compareQuarters,
  noQuarters,
  type Quarters,
  quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
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

/** The concertino up to a time, or from it on, with the other side's notes replaced by those of other bars, raised. */
function swapSide(score: Score, time: Quarters, swapped: "before" | "after"): Score {
  const isSwapped = ({ onset }: Note) => compareQuarters(onset, time) < 0 === (swapped === "before");
  const far = quarters(200);
  const move = (onset: Quarters): Quarters =>
    swapped === "after" ? subtractQuarters(onset, far) : addQuarters(onset, far);
  const parts = score.parts.map((part) => {
    const strangers = part.notes.flatMap((note) => {
      const onset = move(note.onset);
      const moved = { ...note, id: `${note.id}-moved`, onset, tieStart: false, tieStop: false };
      const end = addQuarters(onset, note.duration);
      const reaches = swapped === "before" && compareQuarters(end, time) > 0;
      const sounding = note.sounding && { ...note.sounding, octave: note.sounding.octave + 1 };
      return onset.num >= 0 && isSwapped(moved) && !reaches ? [{ ...moved, sounding, slurs: [] }] : [];
    });
    return { ...part, notes: [...part.notes.filter((note) => !isSwapped(note)), ...strangers] };
  });
  return { ...score, parts };
}

describe("with another music on the other side", () => {
  it.each(places)("what stands before bar index $barIndex is described the same", (position) => {
    const other = swapSide(concertino, onsetOf(concertino, position), "after");
    const [own, swapped] = [new SideHearer(concertino), new SideHearer(other)];
    expect({ ...swapped.before(position), slurs: 0 }).toEqual({ ...own.before(position), slurs: 0 });
    expect(swapped.after(position)).not.toEqual(own.after(position));
  });

  it.each(places)("what begins with bar index $barIndex is described the same", (position) => {
    const other = swapSide(concertino, onsetOf(concertino, position), "before");
    const [own, swapped] = [new SideHearer(concertino), new SideHearer(other)];
    expect({ ...swapped.after(position), slurs: 0 }).toEqual({ ...own.after(position), slurs: 0 });
    expect(swapped.before(position)).not.toEqual(own.before(position));
  });

  it("the features between two sides are the same whether these belong together or were brought together", () => {
    const own = new SideHearer(concertino);
    const [place, elsewhere] = [places[0] as Position, places[2] as Position];
    const other = swapSide(concertino, onsetOf(concertino, place), "after");
    const [first, last] = [own.before(place), own.after(elsewhere)];
    const firstInOther = new SideHearer(other).before(place);
    if (!first || !last || !firstInOther) throw new Error("No sides");
    const successions = new ChordSuccessions([]);
    const measure = (before: Side) => {
      const out = new Float64Array(successionFeatures.length);
      measureSuccession(before, last, successions, -1, out);
      return out;
    };
    expect(measure({ ...firstInOther, slurs: 0 })).toEqual(measure({ ...first, slurs: 0 }));
  });
});

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
