import fc from "fast-check";
import type { CutSpan } from "@/lib/score/cut-span";
import { pieceLength } from "@/lib/score/piece-length";
import { positionAt } from "@/lib/score/position-at";
import { compareQuarters, type Quarters, scaleQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** Numbers from 0 to `fineness` that stand for written times of a piece; `placeCuts` makes cuts of them. */
const fineness = 48;

export const arbitraryCutPlaces: fc.Arbitrary<readonly number[]> = fc.array(fc.nat(fineness), {
  maxLength: 7,
});

/**
 * Cuts of a piece that neither overlap nor touch, in its order, from every two of the places: on bar lines more often
 * than not, inside bars too. A cut of everything is left out.
 */
export function placeCuts(score: Score, places: readonly number[]): CutSpan[] {
  const times = [...new Set(places)]
    .map((place) => timeOf(score, place))
    .sort(compareQuarters)
    .filter((time, index, all) => index === 0 || compareQuarters(time, all[index - 1]!) > 0);
  const cuts: CutSpan[] = [];
  for (let index = 0; index + 1 < times.length; index += 2) {
    const [from, to] = [times[index]!, times[index + 1]!];
    const isAll = from.num === 0 && compareQuarters(to, pieceLength(score)) === 0;
    if (!isAll) cuts.push({ from: positionAt(score, from), to: positionAt(score, to) });
  }
  return cuts;
}

function timeOf(score: Score, place: number): Quarters {
  if (place % 2 === 1) return scaleQuarters(pieceLength(score), place, fineness);
  return score.bars[Math.floor((place / 2) % score.bars.length)]?.start ?? pieceLength(score);
}
