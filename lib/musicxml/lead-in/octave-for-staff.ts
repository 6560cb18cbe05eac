import type { ClefChange } from "@/lib/score/part";
import type { Pitch } from "@/lib/score/pitch";
import { readableSteps, stepsFromMiddle } from "./staff-distance";

/**
 * Octaves by which a line is moved so that it can be read on a staff: none as long as its middle lies within two ledger
 * lines of it.
 *
 * @param clef of the staff; a G clef when it has none.
 */
export function octaveForStaff(written: readonly Pitch[], clef: ClefChange | undefined): number {
  const distances = written.map((pitch) => stepsFromMiddle(pitch, clef)).sort((a, b) => a - b);
  const distance = distances[Math.floor(distances.length / 2)] ?? 0;
  if (Math.abs(distance) <= readableSteps) return 0;
  return -Math.sign(distance) * Math.ceil((Math.abs(distance) - readableSteps) / 7);
}
