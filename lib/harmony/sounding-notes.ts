import type { Note } from "@/lib/score/note";
import { midiNumber, type Pitch, type Step } from "@/lib/score/pitch";
import { isPlayed } from "@/lib/score/playing-spans";
import { addQuarters, compareQuarters, type Quarters, writeQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** A note as it is heard: at sounding pitch, tied notes joined. Written time, end exclusive. */
export interface SoundingNote {
  /** Of the first of the tied notes. */
  readonly id: string;
  readonly partId: string;
  readonly onset: Quarters;
  readonly end: Quarters;
  /** The nearest whole MIDI number: quarter tones are rounded. */
  readonly midi: number;
  /** 0 is C, 11 is B. */
  readonly pitchClass: number;
  /** Place on the line of fifths, which tells C sharp (7) from D flat (−5): C is 0, G 1, F −1. */
  readonly fifths: number;
}

/** Which parts are listened to. */
export interface Listening {
  /** Part ids; all parts when left out. Ids that the score does not have are ignored. */
  readonly partIds?: readonly string[];
}

const fifthsOfStep: Readonly<Record<Step, number>> = { F: -1, C: 0, G: 1, D: 2, A: 3, E: 4, B: 5 };

/** Place of a spelled pitch on the line of fifths; quarter tones count as the nearest whole alteration. */
export function lineOfFifths({ step, alter }: Pick<Pitch, "step" | "alter">): number {
  return fifthsOfStep[step] + 7 * Math.round(alter);
}

/** The remainder in 0…11, for negative numbers too. */
export function pitchClassOf(midi: number): number {
  return ((midi % 12) + 12) % 12;
}

function hear(note: Note, sounding: Pitch, partId: string): SoundingNote {
  const midi = Math.round(midiNumber(sounding));
  return {
    id: note.id,
    partId,
    onset: note.onset,
    end: addQuarters(note.onset, note.duration),
    midi,
    pitchClass: pitchClassOf(midi),
    fifths: lineOfFifths(sounding),
  };
}

/** Notes of one part with tied notes joined: a tie goes on in any voice or staff of the part that has its pitch next. */
function joinTies(notes: readonly Note[], partId: string): SoundingNote[] {
  const heard: SoundingNote[] = [];
  const open = new Map<string, number>();
  for (const note of notes) {
    if (!note.sounding || !isPlayed(note)) continue;
    const next = hear(note, note.sounding, partId);
    const held = note.tieStop ? open.get(`${next.midi}@${writeQuarters(next.onset)}`) : undefined;
    const before = held === undefined ? undefined : heard[held];
    const place = held === undefined || !before ? heard.length : held;
    heard[place] = before ? { ...before, end: next.end } : next;
    if (note.tieStart) open.set(`${next.midi}@${writeQuarters(next.end)}`, place);
  }
  return heard;
}

/**
 * What is heard of a score, by onset, then from the lowest: notes that a player plays, at sounding pitch. Cue-size and
 * hidden notes, grace notes (they take no time) and unpitched notes are left out.
 */
export function findSoundingNotes(score: Score, { partIds }: Listening = {}): SoundingNote[] {
  const wanted = partIds ? new Set(partIds) : null;
  return score.parts
    .filter((part) => !wanted || wanted.has(part.id))
    .flatMap((part) => joinTies(part.notes, part.id))
    .sort((a, b) => compareQuarters(a.onset, b.onset) || a.midi - b.midi);
}
