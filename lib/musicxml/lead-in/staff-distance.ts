import type { ClefChange } from "@/lib/score/part";
import type { Pitch } from "@/lib/score/pitch";

const steps = ["C", "D", "E", "F", "G", "A", "B"];
const placeOf = ({ step, octave }: Pick<Pitch, "step" | "octave">): number =>
  octave * 7 + steps.indexOf(step);

/** What a clef sign names, with the line it usually stands on. */
const named = {
  G: { place: placeOf({ step: "G", octave: 4 }), line: 2 },
  F: { place: placeOf({ step: "F", octave: 3 }), line: 4 },
  C: { place: placeOf({ step: "C", octave: 4 }), line: 3 },
};
const isNamed = (sign: string): sign is keyof typeof named => Object.hasOwn(named, sign);

/** Steps from the middle line to two ledger lines and a little more. */
export const readableSteps = 9;

/**
 * How far above a staff's middle line a pitch stands, in steps of the scale; below it the number is negative.
 *
 * @param clef of the staff; a G clef when it has none, or none that names a pitch.
 */
export function stepsFromMiddle(written: Pitch, clef: ClefChange | undefined): number {
  const sign = named[clef && isNamed(clef.sign) ? clef.sign : "G"];
  const middleLine = sign.place + 2 * (3 - (clef?.line ?? sign.line)) + 7 * (clef?.octaveChange ?? 0);
  return placeOf(written) - middleLine;
}
