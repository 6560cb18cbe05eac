import type { ClefChange } from "@/lib/score/part";
import type { Pitch } from "@/lib/score/pitch";

const steps = ["C", "D", "E", "F", "G", "A", "B"];
const placeOf = ({ step, octave }: Pick<Pitch, "step" | "octave">): number =>
  octave * 7 + steps.indexOf(step);

/** What a clef sign names, with the line it usually stands on. */
const named: Readonly<Record<string, { readonly place: number; readonly line: number }>> = {
  G: { place: placeOf({ step: "G", octave: 4 }), line: 2 },
  F: { place: placeOf({ step: "F", octave: 3 }), line: 4 },
  C: { place: placeOf({ step: "C", octave: 4 }), line: 3 },
};

/** Steps from the middle line to two ledger lines and a little more. */
const farthest = 9;

/**
 * Octaves by which a line is moved so that it can be read on a staff: none as long as its middle lies within two ledger
 * lines of it.
 *
 * @param clef of the staff; a G clef when it has none.
 */
export function octaveForStaff(written: readonly Pitch[], clef: ClefChange | undefined): number {
  const sign = named[clef?.sign ?? "G"] ?? named.G;
  if (!sign || written.length === 0) return 0;
  const middleLine = sign.place + 2 * (3 - (clef?.line ?? sign.line)) + 7 * (clef?.octaveChange ?? 0);
  const places = written.map(placeOf).sort((a, b) => a - b);
  const distance = (places[Math.floor(places.length / 2)] ?? middleLine) - middleLine;
  if (Math.abs(distance) <= farthest) return 0;
  return -Math.sign(distance) * Math.ceil((Math.abs(distance) - farthest) / 7);
}
