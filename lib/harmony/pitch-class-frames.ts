import {
  addQuarters,
  compareQuarters,
  earlierOf,
  laterOf,
  noQuarters,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { cutIntoFrames, type Frame, frameIndexAt, quarterNote } from "./frames";
import { findSoundingNotes, type Listening, type SoundingNote } from "./sounding-notes";

/** What sounds in one frame. */
export interface PitchClassFrame extends Frame {
  /** Bit `p` is set when pitch class `p` sounds, however shortly. */
  readonly mask: number;
  /** By pitch class: for how long it sounds, in whatever octaves; 0 where it does not. */
  readonly lengths: readonly Quarters[];
  /** By place on the line of fifths, see `SoundingNote`: for how long notes of that spelling sound, added up. */
  readonly spellings: ReadonlyMap<number, Quarters>;
  /** By onset, then from the lowest; notes that go on from earlier frames first. */
  readonly notes: readonly SoundingNote[];
}

export interface FrameOptions extends Listening {
  /** Length of a frame; a quarter note when left out. */
  readonly step?: Quarters;
}

/** For each frame the notes that sound in it, in the order given. */
export function notesInFrames(frames: readonly Frame[], notes: readonly SoundingNote[]): SoundingNote[][] {
  const inFrames: SoundingNote[][] = frames.map(() => []);
  for (const note of notes) {
    for (let index = Math.max(0, frameIndexAt(frames, note.onset)); index < frames.length; index += 1) {
      const frame = frames[index];
      if (!frame || compareQuarters(frame.onset, note.end) >= 0) break;
      inFrames[index]?.push(note);
    }
  }
  return inFrames;
}

/** Part of a note that lies in a frame. */
function clip(note: SoundingNote, frame: Frame): { from: Quarters; to: Quarters } {
  return { from: laterOf(note.onset, frame.onset), to: earlierOf(note.end, frame.end) };
}

function weigh(frame: Frame, notes: readonly SoundingNote[]): PitchClassFrame {
  let mask = 0;
  const lengths = new Array<Quarters>(12).fill(noQuarters);
  const soundUntil = new Array<Quarters>(12).fill(frame.onset);
  const spellings = new Map<number, Quarters>();
  for (const note of notes) {
    const { from, to } = clip(note, frame);
    const pitchClass = note.pitchClass;
    mask |= 1 << pitchClass;
    spellings.set(
      note.fifths,
      addQuarters(spellings.get(note.fifths) ?? noQuarters, subtractQuarters(to, from)),
    );
    // Notes come by onset, so what they add to a pitch class begins where it stopped sounding or later.
    const fresh = laterOf(from, soundUntil[pitchClass] ?? from);
    if (compareQuarters(fresh, to) >= 0) continue;
    lengths[pitchClass] = addQuarters(lengths[pitchClass] ?? noQuarters, subtractQuarters(to, fresh));
    soundUntil[pitchClass] = to;
  }
  return { ...frame, mask, lengths, spellings, notes };
}

/** What sounds in frames that tile the piece or a part of it. */
export function weighFrames(frames: readonly Frame[], notes: readonly SoundingNote[]): PitchClassFrame[] {
  const inFrames = notesInFrames(frames, notes);
  return frames.map((frame, index) => weigh(frame, inFrames[index] ?? []));
}

/**
 * Which pitch classes sound in each quarter note of the written order, at sounding pitch, and for how long. Tied notes
 * go on; grace notes, cue-size and hidden notes and unpitched notes are not heard. Frames start with their bar; what is
 * left of a bar is a shorter frame.
 *
 * @throws RangeError if `options.step` is not positive.
 */
export function pitchClassesPerQuarter(score: Score, options: FrameOptions = {}): PitchClassFrame[] {
  const frames = cutIntoFrames(score, options.step ?? quarterNote);
  return weighFrames(frames, findSoundingNotes(score, options));
}
