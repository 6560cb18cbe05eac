import type { Tremolo } from "./note";
import { type Quarters, quarters, quartersAsNumber, scaleQuarters } from "./quarters";

/** Marks that an unmeasured tremolo is played with: 32nds. Common practice. */
const unmeasuredMarks = 3;
const mostMarks = 6;

/**
 * How long one stroke of a tremolo is. A mark halves the value: one on a quarter is eighths. The flags that a shorter note
 * has count as well, and a note in a triplet is struck in triplets.
 *
 * @param duration of the note, in a tremolo to and fro of one of the two: each is printed with the value of both.
 * Source: MusicXML 4.0, `tremolo`; flags and triplets: common practice.
 */
export function strokeLength(duration: Quarters, { type, marks, tuplet }: Tremolo): Quarters {
  const { actual, normal } = tuplet ?? { actual: 1, normal: 1 };
  const printed = type === "start" || type === "stop" ? scaleQuarters(duration, 2) : duration;
  const written = quartersAsNumber(scaleQuarters(printed, actual, normal));
  const flags = Math.max(0, Math.ceil(Math.log2(1 / Math.max(written, 1 / 64))));
  const beams = Math.min(Math.max((type === "unmeasured" ? unmeasuredMarks : marks) + flags, 1), mostMarks);
  return quarters(normal, actual * 2 ** beams);
}
