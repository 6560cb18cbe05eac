import type { Position } from "@/lib/score/position";
import { compareQuarters, type Quarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { cutIntoBeats, type Frame } from "./frames";
import { notesInFrames } from "./pitch-class-frames";
import { findSoundingNotes, type Listening, type SoundingNote } from "./sounding-notes";

/** The outer voices at one beat. Written time, end exclusive. */
export interface OuterNotes {
  readonly at: Position;
  readonly onset: Quarters;
  readonly end: Quarters;
  /** Lowest and highest note at the beat; where nothing sounds on it, of those that begin first. Null in silence. */
  readonly bass: SoundingNote | null;
  readonly top: SoundingNote | null;
  /** Semitones from the beat before to this one; null where either is silent. */
  readonly bassStepSemitones: number | null;
  readonly topStepSemitones: number | null;
}

/** Notes that sound on the beat, or, when there are none, those that begin first after it. */
function notesAtBeat(beat: Frame, notes: readonly SoundingNote[]): readonly SoundingNote[] {
  const onBeat = notes.filter(({ onset }) => compareQuarters(onset, beat.onset) <= 0);
  const first = notes[0];
  if (onBeat.length > 0 || !first) return onBeat;
  return notes.filter(({ onset }) => compareQuarters(onset, first.onset) === 0);
}

function outermost(notes: readonly SoundingNote[], side: 1 | -1): SoundingNote | null {
  return notes.reduce<SoundingNote | null>(
    (outer, note) => (!outer || side * note.midi > side * outer.midi ? note : outer),
    null,
  );
}

const stepBetween = (before: SoundingNote | null | undefined, note: SoundingNote | null): number | null =>
  before && note ? note.midi - before.midi : null;

/** Bass line and top line of the written order, beat by beat, at sounding pitch. */
export function findLines(score: Score, listening: Listening = {}): OuterNotes[] {
  const beats = cutIntoBeats(score);
  const inBeats = notesInFrames(beats, findSoundingNotes(score, listening));
  let before: { bass: SoundingNote | null; top: SoundingNote | null } | null = null;
  return beats.map((beat, index) => {
    const notes = notesAtBeat(beat, inBeats[index] ?? []);
    const bass = outermost(notes, -1);
    const top = outermost(notes, 1);
    const steps = {
      bassStepSemitones: stepBetween(before?.bass, bass),
      topStepSemitones: stepBetween(before?.top, top),
    };
    before = { bass, top };
    return { ...beat, bass, top, ...steps };
  });
}
