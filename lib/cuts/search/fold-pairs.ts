import { asGoodAsEqual } from "../join/find-precedent";
import type { Heard } from "../join/listen";
import { likenessOf } from "../join/window";
import type { CandidatePlace } from "./candidate-places";
import type { WeighedPair } from "./weigh-pairs";

/** A cut and those that come to the same, the best first. */
export interface FoldedPairs {
  readonly best: WeighedPair;
  readonly others: readonly WeighedPair[];
}

const beatsAside = 2;

/** Within two beats. */
export function isNear(a: CandidatePlace, b: CandidatePlace): boolean {
  return Math.abs(a.ticks - b.ticks) <= beatsAside * a.beatTicks;
}

/** Whether two stretches of one length say the same, piece by piece. */
function isSameMusic({ sides }: Heard, from: number, other: number, length: number, piece: number): boolean {
  for (let at = 0; at < length; at += piece) {
    const end = Math.min(length, at + piece);
    const [a, b] = [sides.window(from + at, from + end), sides.window(other + at, other + end)];
    const areSilent = a.weight === 0 && b.weight === 0;
    if (!areSilent && likenessOf(a, b, 0) < asGoodAsEqual) return false;
  }
  return true;
}

/** The same music is left once, whichever of its two statements goes: the seam only stands elsewhere in it. */
function isSameSeam(heard: Heard, a: WeighedPair, b: WeighedPair): boolean {
  const taken = a.to.ticks - a.from.ticks;
  if (b.to.ticks - b.from.ticks !== taken) return false;
  const [first, last] = a.from.ticks <= b.from.ticks ? [a.from, b.from] : [b.from, a.from];
  return isSameMusic(heard, first.ticks, first.ticks + taken, last.ticks - first.ticks, first.barTicks);
}

function comesToTheSame(heard: Heard, a: WeighedPair, b: WeighedPair): boolean {
  return (isNear(a.from, b.from) && isNear(a.to, b.to)) || isSameSeam(heard, a, b);
}

/**
 * Different cuts only, the best first: those within two beats at both ends, or with the same seam along a repeated
 * pattern, are folded into the best of them.
 *
 * @param pairs the best first.
 * @param most groups looked for.
 */
export function foldPairs(heard: Heard, pairs: readonly WeighedPair[], most: number): FoldedPairs[] {
  const folded: { best: WeighedPair; others: WeighedPair[] }[] = [];
  for (const pair of pairs) {
    const same = folded.find(({ best }) => comesToTheSame(heard, best, pair));
    if (same) same.others.push(pair);
    else if (folded.length < most) folded.push({ best: pair, others: [] });
  }
  return folded;
}
