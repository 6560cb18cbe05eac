import type { DeskBar } from "@/app/_data/desk/desk";
import type { NoteBox } from "@/app/_ui/score/compose-system";
import type { EngravedSystem } from "@/app/_ui/score/engraving";
import type { PositionTerms } from "@/lib/edition/position-terms";
import { quartersAsNumber, readQuarters } from "@/lib/score/quarters";
import { keyOfPlace, type NoteEnds } from "./solo-places";

/** A drawn system with the places of its notes. Lengths are units of its drawing. */
export interface DrawnSystem {
  readonly system: EngravedSystem;
  /** The last bar that it stands for: a many-bar rest at its end is one box for many bars. */
  readonly lastBar: number;
  /** From left to right. */
  readonly notes: readonly NoteBox[];
}

/** From a note to where a comma after it stands when nothing follows in its system. */
const afterLast = 90;

/**
 * The note that a touch means: the one under it, and between two notes the one before. Null before the first.
 *
 * @param slack how far left of a note's head still means it.
 */
export function noteAtX(notes: readonly NoteBox[], x: number, slack: number): NoteBox | null {
  return notes.findLast(({ left }) => left - slack <= x) ?? null;
}

/** Where a comma after a note stands: midway to the next note, close after it when that is far. */
export function commaX(notes: readonly NoteBox[], noteId: string): number | null {
  const index = notes.findIndex(({ id }) => id === noteId);
  const note = notes[index];
  if (!note) return null;
  const next = notes.slice(index + 1).find(({ left }) => left > note.right);
  return next ? Math.min((note.right + next.left) / 2, note.right + 3 * afterLast) : note.right + afterLast;
}

/** How high a comma must stand to clear the staff and the notes beside it. */
export function commaY({ system, notes }: DrawnSystem, noteId: string): number {
  const index = notes.findIndex(({ id }) => id === noteId);
  const beside = notes.slice(index, index + 2).map(({ top }) => top);
  return Math.min(system.bars[0]?.top ?? 0, ...beside);
}

type Bars = readonly Pick<DeskBar, "label" | "length" | "beats">[];

/** How far a place lies along its bar by the clock of the page, for what no note marks. */
function byBar(bars: Bars, { system }: DrawnSystem, { barIndex, offset }: PositionTerms): number | null {
  const box = system.bars.findLast((bar) => bar.barIndex <= barIndex);
  if (!box) return null;
  if (box.barIndex < barIndex) return box.x + box.width;
  const [at, length] = [readQuarters(offset), readQuarters(bars[barIndex]?.length ?? "")];
  const part = at && length && length.num > 0 ? quartersAsNumber(at) / quartersAsNumber(length) : 0;
  return box.x + box.width * Math.min(1, part);
}

/** Where a stretch begins: at its first note. */
export function startX(bars: Bars, ends: NoteEnds, drawn: DrawnSystem, at: PositionTerms): number | null {
  const id = ends.starts.get(keyOfPlace(bars, at));
  return drawn.notes.find((note) => note.id === id)?.left ?? byBar(bars, drawn, at);
}

/** Where a stretch ends: after its last note, which may stand in the system before. */
export function endX(bars: Bars, ends: NoteEnds, drawn: DrawnSystem, at: PositionTerms): number | null {
  const id = ends.ends.get(keyOfPlace(bars, at));
  const comma = id === undefined ? null : commaX(drawn.notes, id);
  return comma ?? byBar(bars, drawn, at);
}
