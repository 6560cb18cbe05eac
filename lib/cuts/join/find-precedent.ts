import { type Matches, matchCode } from "./likenesses";

/** A place of the piece that sounds as the join would. */
export interface Precedent {
  /**
   * `same-before`: what stands before the cut stands before the landing too, so that the join sounds as the piece does
   * there. `same-after`: the piece goes on at the cut as it does from the landing. `elsewhere`: the composer makes the
   * join at a third place, perhaps on another degree.
   */
  readonly kind: "same-before" | "same-after" | "elsewhere";
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
  let best: Precedent | null = null;
  for (const [code, ofAfter] of after) {
    const ofBefore = before.get(code);
    const [barIndex, semitones] = [Math.floor(code / 12), code % 12];
    if (ofBefore === undefined || barIndex === from || barIndex === to) continue;
    const likeness = (ofBefore + ofAfter) / 2;
    if (!best || likeness > best.likeness) best = { kind: "elsewhere", barIndex, semitones, likeness };
  }
  return best;
}

/**
 * Where the piece makes a join itself; null when it does nowhere.
 *
 * @param before surroundings like those before the bar `from`, @param after like those from the bar `to` on.
 */
export function findPrecedent(before: Matches, after: Matches, from: number, to: number): Precedent | null {
  const asLanding = before.get(matchCode(to, 0));
  const asGoingOn = after.get(matchCode(from, 0));
  const seams: Precedent[] = [];
  if (asLanding !== undefined)
    seams.push({ kind: "same-before", barIndex: to, semitones: 0, likeness: asLanding });
  if (asGoingOn !== undefined)
    seams.push({ kind: "same-after", barIndex: from, semitones: 0, likeness: asGoingOn });
  const elsewhere = findElsewhere(before, after, from, to);
  return [...seams, ...(elsewhere ? [elsewhere] : [])].reduce<Precedent | null>(
    (best, other) => (!best || other.likeness > best.likeness ? other : best),
    null,
  );
}
