import { midiNumber, type Pitch, type Step } from "./pitch";

/**
 * From written to sounding pitch (MusicXML 4.0, `transpose`): clarinet in B flat is `diatonic: -1, chromatic: -2`.
 * `octaveChange` counts octaves on top of both.
 */
export interface Transposition {
  readonly diatonic: number;
  readonly chromatic: number;
  readonly octaveChange: number;
}

export const atPitch: Transposition = { diatonic: 0, chromatic: 0, octaveChange: 0 };

const steps: readonly Step[] = ["C", "D", "E", "F", "G", "A", "B"];

/** The pitch that sounds when `written` is played on an instrument so transposed; the spelling follows the diatonic interval. */
export function soundingPitch(written: Pitch, by: Transposition): Pitch {
  if (by.chromatic === 0 && by.diatonic === 0 && by.octaveChange === 0) return written;
  const degree = steps.indexOf(written.step) + by.diatonic;
  const step = steps[((degree % 7) + 7) % 7] as Step; // the double modulo is always an index of `steps`
  const octave = written.octave + Math.floor(degree / 7) + by.octaveChange;
  const target = midiNumber(written) + by.chromatic + 12 * by.octaveChange;
  return { step, octave, alter: target - midiNumber({ step, octave, alter: 0 }) };
}

/** The pitch to be written so that `sounding` is heard: the inverse of `soundingPitch`. */
export function writtenPitch(sounding: Pitch, { diatonic, chromatic, octaveChange }: Transposition): Pitch {
  return soundingPitch(sounding, {
    diatonic: -diatonic,
    chromatic: -chromatic,
    octaveChange: -octaveChange,
  });
}
