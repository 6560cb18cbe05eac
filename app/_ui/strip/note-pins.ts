import type { Ink } from "../party";
import type { Scale } from "./scale";
import type { StripNote } from "./strip-piece";

export interface NotePin {
  readonly x: number;
  readonly ink: Ink;
  readonly notes: readonly StripNote[];
}

/** Closer than this, notes become one pin with a count. Source: design notes, "600 bars". */
const mergePixels = 17;

/** Pins in time order; a merged pin has the ink of the player who wrote most of it, the first writer's when equal. */
export function placeNotes(notes: readonly StripNote[], scale: Scale): NotePin[] {
  const groups: { x: number; notes: StripNote[] }[] = [];
  for (const note of [...notes].sort((a, b) => a.at - b.at)) {
    const x = scale.x(note.at);
    const last = groups.at(-1);
    if (last && x - last.x < mergePixels) last.notes.push(note);
    else groups.push({ x, notes: [note] });
  }
  return groups.map((group) => ({ ...group, ink: inkOfMost(group.notes) }));
}

function inkOfMost(notes: readonly StripNote[]): Ink {
  const counts = new Map<Ink, number>();
  for (const note of notes) counts.set(note.ink, (counts.get(note.ink) ?? 0) + 1);
  const most = Math.max(...counts.values());
  return notes.find((note) => counts.get(note.ink) === most)?.ink ?? "graphite";
}

/** Breath commas above 4 px apart; an agreed cut takes its breaths with it. */
export function placeBreaths<Breath extends { readonly at: number }>(
  breaths: readonly Breath[],
  gone: readonly { readonly from: number; readonly to: number }[],
  scale: Scale,
): { x: number; breath: Breath }[] {
  let last = Number.NEGATIVE_INFINITY;
  return breaths.flatMap((breath) => {
    const x = scale.x(breath.at);
    if (x - last < 4 || gone.some((gap) => breath.at >= gap.from && breath.at < gap.to)) return [];
    last = x;
    return [{ x, breath }];
  });
}
