/** The seven letter names in ascending order; the index is the diatonic step. */
export const STEPS = ["C", "D", "E", "F", "G", "A", "B"] as const;
export type Step = (typeof STEPS)[number];

const SEMITONES: Record<Step, number> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** A spelled pitch. `alter` in semitones, `octave` as in scientific notation (C4 = middle C). */
export interface Pitch {
  readonly step: Step;
  readonly alter: number;
  readonly octave: number;
}

/** MIDI number (C4 = 60), for arithmetic only. */
export function midiOf(pitch: Pitch): number {
  return (pitch.octave + 1) * 12 + SEMITONES[pitch.step] + pitch.alter;
}

/** Number of the line or space, counted in steps from C0. */
export function staffPosition(pitch: Pitch): number {
  return pitch.octave * 7 + STEPS.indexOf(pitch.step);
}

/** The pitch at a staff position with the given sounding MIDI number. */
export function spellAt(position: number, midi: number): Pitch {
  const octave = Math.floor(position / 7);
  const step = stepAt(position);
  const natural = midiOf({ step, alter: 0, octave });
  return { step, alter: midi - natural, octave };
}

/** An interval as a pair, so that the spelling survives transposition. */
export interface Interval {
  readonly diatonic: number;
  readonly chromatic: number;
}

/** Moves a pitch by an interval and keeps the spelling that the interval asks for. */
export function transposePitch(pitch: Pitch, { diatonic, chromatic }: Interval): Pitch {
  return spellAt(staffPosition(pitch) + diatonic, midiOf(pitch) + chromatic);
}

/** The same pitch `octaves` higher (negative: lower). */
export function shiftOctaves(pitch: Pitch, octaves: number): Pitch {
  return { ...pitch, octave: pitch.octave + octaves };
}

export function isSamePitch(one: Pitch, other: Pitch): boolean {
  return one.step === other.step && one.alter === other.alter && one.octave === other.octave;
}

/** The alteration that a key signature of `fifths` (negative: flats) gives to a letter. */
export function alterInKey(step: Step, fifths: number): number {
  const sharps: Step[] = ["F", "C", "G", "D", "A", "E", "B"];
  const place = sharps.indexOf(step);
  if (fifths > 0) return place < fifths ? 1 : 0;
  return 6 - place < -fifths ? -1 : 0;
}

function stepAt(position: number): Step {
  const step = STEPS[((position % 7) + 7) % 7];
  if (step === undefined) throw new RangeError(`No step at position ${position}`);
  return step;
}
