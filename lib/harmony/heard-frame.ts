import { type Quarters, subtractQuarters } from "@/lib/score/quarters";
import type { PitchClassFrame } from "./pitch-class-frames";
import { pitchClassOf, type SoundingNote } from "./sounding-notes";

/**
 * A frame as keys and chords are judged by: whole numbers only, so that a sum is the same in whatever order, and a
 * transposed piece is judged exactly as the piece itself.
 */
export interface HeardFrame {
  readonly mask: number;
  /** Pitch classes that sound, how many. */
  readonly count: number;
  /** By pitch class: share of the frame in which it sounds, in `wholeFrame` parts. */
  readonly shares: Int32Array;
  /** Places on the line of fifths of the spellings that sound. */
  readonly spellings: readonly number[];
  /** Of the lowest note that sounds in the frame; null in silence. */
  readonly bass: number | null;
}

/** The share of a pitch class that sounds throughout. Divides evenly by the common tuplets. */
export const wholeFrame = 840;

function shareOf(length: Quarters, whole: Quarters): number {
  return Math.round((wholeFrame * length.num * whole.den) / (length.den * whole.num));
}

/** Lowest note; of two of the same pitch the earlier. Null in silence. */
export function lowestOf(notes: readonly SoundingNote[]): SoundingNote | null {
  return notes.reduce<SoundingNote | null>((low, note) => (!low || note.midi < low.midi ? note : low), null);
}

export function hearFrame(frame: PitchClassFrame): HeardFrame {
  const whole = subtractQuarters(frame.end, frame.onset);
  const shares = Int32Array.from(frame.lengths, (length) => shareOf(length, whole));
  const lowest = lowestOf(frame.notes);
  return {
    mask: frame.mask,
    count: frame.lengths.filter(({ num }) => num > 0).length,
    shares,
    spellings: [...frame.spellings.keys()],
    bass: lowest ? pitchClassOf(lowest.midi) : null,
  };
}

/** Whether a frame begins with its bar. */
export function startsBar({ at }: PitchClassFrame): boolean {
  return at.offset.num === 0;
}
