import { z } from "zod";
import {
  compareQuarters,
  noQuarters,
  type Quarters,
  readQuarters,
  scaleQuarters,
} from "@/lib/score/quarters";

const beatSchema = z
  .string()
  .refine((text) => compareQuarters(readQuarters(text) ?? noQuarters, noQuarters) > 0, {
    message: "A beat is a length in quarters, such as 1 or 3/2.",
  });

/** Faster than any metronome goes, so that a slip of the finger is noticed. */
const fastestPerMinute = 600;

/** A tempo as the metronome gives it: whole beats a minute. */
export const practiceTempoSchema = z.strictObject({
  /** What is counted, in quarters, as `writeQuarters` writes it: "1" for a quarter, "3/2" for a dotted one. */
  beat: beatSchema,
  perMinute: z
    .int("A metronome counts whole beats a minute.")
    .min(1, "A tempo is at least one beat a minute.")
    .max(fastestPerMinute, `No metronome counts more than ${fastestPerMinute} beats a minute.`),
});

export type PracticeTempo = z.infer<typeof practiceTempoSchema>;

/**
 * The exact length of the beat.
 *
 * @throws RangeError for a text that no schema let through.
 */
export function beatOfTempo({ beat }: Pick<PracticeTempo, "beat">): Quarters {
  const length = readQuarters(beat);
  if (length === null || compareQuarters(length, noQuarters) <= 0)
    throw new RangeError(`Not a beat: ${beat}`);
  return length;
}

/** Quarter notes a minute, exact: what tempi in different beats are compared by. */
export function quartersPerMinuteOf(tempo: PracticeTempo): Quarters {
  return scaleQuarters(beatOfTempo(tempo), tempo.perMinute);
}

/** Negative, zero or positive, as the first is slower than, as fast as or faster than the second, whatever is counted. */
export function compareTempi(a: PracticeTempo, b: PracticeTempo): number {
  return compareQuarters(quartersPerMinuteOf(a), quartersPerMinuteOf(b));
}
