export type Step = "A" | "B" | "C" | "D" | "E" | "F" | "G";

/** A pitch as spelled. `alter` counts semitones (fractions for microtones); middle C is `C`, 0, 4 (MusicXML 4.0, `pitch`). */
export interface Pitch {
  readonly step: Step;
  readonly alter: number;
  readonly octave: number;
}

const semitonesAboveC: Readonly<Record<Step, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** MIDI note number, 60 for middle C; fractional for microtones. For arithmetic only: it forgets the spelling. */
export function midiNumber(pitch: Pitch): number {
  return (pitch.octave + 1) * 12 + semitonesAboveC[pitch.step] + pitch.alter;
}
