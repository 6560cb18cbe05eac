import type { HandName } from "./hands-profile";
import type { StruckNote } from "./struck-note";

/**
 * How the notes of a bar are shared between the hands: as printed, or all from one key upwards with the right hand. Each
 * note goes by itself, whatever else is struck, so that leaving a note out moves no other.
 */
export type Division = { readonly by: "staff" } | { readonly by: "key"; readonly rightFromMidi: number };

export function handOf(note: StruckNote, division: Division): HandName {
  if (division.by === "staff") return note.staffHand;
  return note.midi >= division.rightFromMidi ? "right" : "left";
}

/** Every way of sharing these notes that differs, as printed first. */
export function findDivisions(notes: readonly StruckNote[]): Division[] {
  const keys = [...new Set(notes.map(({ midi }) => midi))].sort((a, b) => a - b);
  const lines = [...keys, (keys.at(-1) ?? 0) + 1];
  return [
    { by: "staff" },
    ...lines
      .map((rightFromMidi) => ({ by: "key" as const, rightFromMidi }))
      .filter((division) => notes.some((note) => handOf(note, division) !== note.staffHand)),
  ];
}
