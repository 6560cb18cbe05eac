import type { Note, Tremolo } from "./note";
import { writeQuarters } from "./quarters";

/** Notes with the tremolo of their chord: the sign stands on the stem, and files write it to one note of the chord alone. */
export function shareTremolos(notes: readonly Note[]): readonly Note[] {
  const ofChord = new Map<string, Tremolo>();
  for (const note of notes) if (note.tremolo && !note.isGrace) ofChord.set(chordOf(note), note.tremolo);
  if (ofChord.size === 0) return notes;
  return notes.map((note) => {
    const tremolo = note.tremolo || note.isGrace ? null : (ofChord.get(chordOf(note)) ?? null);
    return tremolo ? { ...note, tremolo } : note;
  });
}

const chordOf = ({ voice, onset }: Note): string => `${voice}@${writeQuarters(onset)}`;
