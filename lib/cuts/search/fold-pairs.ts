import { beatOf } from "@/lib/score/beat-of";
import {
  compareQuarters,
  isEqualQuarters,
  type Quarters,
  scaleQuarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import { asGoodAsEqual } from "../join/find-precedent";
import type { Heard } from "../join/listen";
import type { CandidatePlace } from "./candidate-places";
import type { WeighedPair } from "./weigh-pairs";

/** A cut and those that come to the same, the best first. */
export interface FoldedPairs {
  readonly best: WeighedPair;
  readonly others: readonly WeighedPair[];
}

const beatsAside = 2;

function apart(a: Quarters, b: Quarters): Quarters {
  const difference = subtractQuarters(a, b);
  return difference.num < 0 ? subtractQuarters(b, a) : difference;
}

/** Within two beats. */
export function isNear({ score }: Heard, a: CandidatePlace, b: CandidatePlace): boolean {
  const metre = score.bars[a.place.position.barIndex]?.metre ?? { groups: [], symbol: null };
  return compareQuarters(apart(a.time, b.time), scaleQuarters(beatOf(metre), beatsAside)) <= 0;
}

/** The same music is left once, whichever of its two statements goes: the seam only stands elsewhere in it. */
function isSameSeam({ likenesses }: Heard, a: WeighedPair, b: WeighedPair): boolean {
  const [from, to] = [a.from.place.position, a.to.place.position];
  const [otherFrom, otherTo] = [b.from.place.position, b.to.place.position];
  const shift = otherFrom.barIndex - from.barIndex;
  const isParallel =
    otherTo.barIndex - to.barIndex === shift &&
    isEqualQuarters(from.offset, otherFrom.offset) &&
    isEqualQuarters(to.offset, otherTo.offset) &&
    isEqualQuarters(from.offset, to.offset);
  if (!isParallel) return false;
  const own = likenesses.from(from.offset);
  const first = Math.min(from.barIndex, otherFrom.barIndex);
  const bars = Array.from({ length: Math.abs(shift) }, (_, bar) => first + bar);
  return bars.every((bar) => own.likeness(bar, bar + to.barIndex - from.barIndex, 0) >= asGoodAsEqual);
}

function comesToTheSame(heard: Heard, a: WeighedPair, b: WeighedPair): boolean {
  return (isNear(heard, a.from, b.from) && isNear(heard, a.to, b.to)) || isSameSeam(heard, a, b);
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
