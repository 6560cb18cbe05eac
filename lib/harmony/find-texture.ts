import type { Position } from "@/lib/score/position";
import {
  compareQuarters,
  earlierOf,
  laterOf,
  type Quarters,
  quartersAsNumber,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { type DynamicInForce, dynamicsAt, findDynamics } from "./find-dynamics";
import { cutIntoBeats, type Frame } from "./frames";
import { notesInFrames } from "./pitch-class-frames";
import { findSoundingNotes, type Listening, type SoundingNote } from "./sounding-notes";

/** How the music is laid out in one beat. Written time, end exclusive. */
export interface BeatTexture {
  readonly at: Position;
  readonly onset: Quarters;
  readonly end: Quarters;
  /** Different times at which something begins, and all notes that begin. */
  readonly onsetCount: number;
  readonly beginningNotes: number;
  /** Different onsets in a quarter note's time. */
  readonly onsetsPerQuarter: number;
  /** Of the parts that sound, in score order. */
  readonly activePartIds: readonly string[];
  /** Null in silence. */
  readonly register: Register | null;
  /** Notes that began before the beat and go on. */
  readonly heldNoteIds: readonly string[];
  /** By part id. */
  readonly dynamics: ReadonlyMap<string, DynamicInForce>;
}

/** MIDI numbers; the centroid is the mean weighted by how long each note sounds in the beat. */
export interface Register {
  readonly lowest: number;
  readonly highest: number;
  readonly centroid: number;
}

function findRegister(beat: Frame, notes: readonly SoundingNote[]): Register | null {
  if (notes.length === 0) return null;
  let [weighted, all, lowest, highest] = [0, 0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const note of notes) {
    const sounds = subtractQuarters(earlierOf(note.end, beat.end), laterOf(note.onset, beat.onset));
    weighted += note.midi * quartersAsNumber(sounds);
    all += quartersAsNumber(sounds);
    lowest = Math.min(lowest, note.midi);
    highest = Math.max(highest, note.midi);
  }
  // The quotient may miss a single pitch by a rounding error.
  return { lowest, highest, centroid: Math.min(highest, Math.max(lowest, weighted / all)) };
}

/**
 * Density, parts, register, held notes and printed dynamics of each beat of the written order.
 *
 * Dynamics are terraced: a mark holds in its part until the next; hairpins are ranges beside it.
 */
export function findTexture(score: Score, listening: Listening = {}): BeatTexture[] {
  const beats = cutIntoBeats(score);
  const inBeats = notesInFrames(beats, findSoundingNotes(score, listening));
  const parts = score.parts.filter(({ id }) => listening.partIds?.includes(id) ?? true);
  const dynamics = parts.map((part) => ({ id: part.id, printed: findDynamics(score, part) }));
  return beats.map((beat, index) => {
    const notes = inBeats[index] ?? [];
    const beginning = notes.filter(({ onset }) => compareQuarters(onset, beat.onset) >= 0);
    const onsetCount = new Set(beginning.map(({ onset }) => writeQuarters(onset))).size;
    const sounding = new Set(notes.map(({ partId }) => partId));
    return {
      ...beat,
      onsetCount,
      beginningNotes: beginning.length,
      onsetsPerQuarter: onsetCount / quartersAsNumber(subtractQuarters(beat.end, beat.onset)),
      activePartIds: parts.map(({ id }) => id).filter((id) => sounding.has(id)),
      register: findRegister(beat, notes),
      heldNoteIds: notes.filter(({ onset }) => compareQuarters(onset, beat.onset) < 0).map(({ id }) => id),
      dynamics: new Map(dynamics.map(({ id, printed }) => [id, dynamicsAt(printed, beat.onset)])),
    };
  });
}
