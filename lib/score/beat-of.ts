import type { Metre } from "./bar";
import { type Quarters, quarters } from "./quarters";

interface Simple {
  readonly beats: number;
  readonly beatType: number;
}

/** The first group decides; senza misura counts quarters. */
function simplify(metre: Metre): Simple {
  const group = metre.groups[0];
  if (!group || metre.groups.length === 0) return { beats: 4, beatType: 4 };
  return { beats: group.beats.reduce((sum, beats) => sum + beats, 0), beatType: group.beatType };
}

const isCompound = ({ beats, beatType }: Simple): boolean => beatType >= 8 && beats > 3 && beats % 3 === 0;

/** Whether a metre is counted in dotted beats: 6/8, 9/8, 12/8. Source: common practice. */
export const hasDottedBeats = (metre: Metre): boolean => isCompound(simplify(metre));

/** The counted beat of a metre: a dotted value in 6/8, 9/8 and 12/8, else the lower figure. Source: common practice. */
export function beatOf(metre: Metre): Quarters {
  const simple = simplify(metre);
  return isCompound(simple) ? quarters(12, simple.beatType) : quarters(4, simple.beatType);
}

/**
 * Quarters a minute for each beat a minute that a tempo word stands for. A word means a character, and beats in halves
 * move less often, beats in eighths more often, than beats in quarters: so a half is not simply twice as long.
 *
 * Source: common practice, from memory; meant for defaults that are shown and can be changed.
 */
export function quartersPerWordBeat(metre: Metre): number {
  const simple = simplify(metre);
  if (simple.beatType <= 2) return 1.4;
  if (simple.beatType === 4) return 1;
  if (simple.beatType === 8) return isCompound(simple) ? 1 : 0.7;
  return 0.5;
}
