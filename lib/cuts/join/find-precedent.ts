import { eachShared, likenessAt, type Matches, matchCode } from "./matches";

/** A place of the piece that sounds as the join would. */
export interface Precedent {
  /**
   * `repeat`: the cut leaves out one of two equal statements that follow each other note for note.
   * `same-before`: what stands before the cut stands before the landing too, so that the join sounds as the piece does
   * there. `same-after`: the piece goes on at the cut as it does from the landing. `elsewhere`: the composer makes the
   * join at a third place, perhaps on another degree.
   */
  readonly kind: "repeat" | "same-before" | "same-after" | "elsewhere";
  /** The bar that begins with the join there. */
  readonly barIndex: number;
  /** From the join up to the place, 0 to 11. */
  readonly semitones: number;
  /** Of the bars on both sides, 0 to 1. */
  readonly likeness: number;
}

/** From this likeness on one side is the other. */
export const asGoodAsEqual = 0.85;

function findElsewhere(before: Matches, after: Matches, from: number, to: number): Precedent | null {
  let [found, greatest] = [-1, 0];
  eachShared(before, after, 0, (code, ofBefore, ofAfter) => {
    // As the other seams are: by the side that is less like.
    const likeness = Math.min(ofBefore, ofAfter);
    if (likeness <= greatest) return;
    const barIndex = Math.floor(code / 12);
    if (barIndex !== from && barIndex !== to) [found, greatest] = [code, likeness];
  });
  if (found < 0) return null;
  return { kind: "elsewhere", barIndex: Math.floor(found / 12), semitones: found % 12, likeness: greatest };
}

/**
 * Where the piece makes a join itself; null when it does nowhere.
 *
 * @param before surroundings like those before the bar `from`, @param after like those from the bar `to` on.
 */
export function findPrecedent(before: Matches, after: Matches, from: number, to: number): Precedent | null {
  const [asLanding, asGoingOn] = [
    likenessAt(before, matchCode(to, 0)),
    likenessAt(after, matchCode(from, 0)),
  ];
  let best = findElsewhere(before, after, from, to);
  // Of equal ones the seam is told rather than a third place.
  if (asGoingOn !== null && asGoingOn >= (best?.likeness ?? 0))
    best = { kind: "same-after", barIndex: from, semitones: 0, likeness: asGoingOn };
  if (asLanding !== null && asLanding >= (best?.likeness ?? 0))
    best = { kind: "same-before", barIndex: to, semitones: 0, likeness: asLanding };
  return best;
}
