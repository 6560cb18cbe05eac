/** Something on the strip that a finger can mean. Its reach is the full height of the strip. */
export interface Target<Kind> {
  readonly x: number;
  readonly end: number;
  /** Middle of what is drawn, from the top: decides between things at the same place. */
  readonly y: number;
  readonly meant: Kind;
}

/** A finger is 44 px wide; a mouse points. */
export const fingerReach = 22;
export const mouseReach = 5;

/**
 * What a tap can mean, nearest first: things whose extent, widened to at least twice `reach`, holds the tap. Inside more than
 * one, the one drawn nearer to the height of the tap wins, then the narrower.
 */
export function findHits<Kind>(
  targets: readonly Target<Kind>[],
  tap: { x: number; y: number },
  reach: number,
): Target<Kind>[] {
  const outside = (target: Target<Kind>) => Math.max(0, target.x - tap.x, tap.x - target.end);
  return targets
    .filter((target) => {
      const widen = Math.max(0, reach - (target.end - target.x) / 2);
      return tap.x >= target.x - widen && tap.x <= target.end + widen;
    })
    .sort(
      (a, b) =>
        outside(a) - outside(b) ||
        Math.abs(a.y - tap.y) - Math.abs(b.y - tap.y) ||
        a.end - a.x - (b.end - b.x),
    );
}

/**
 * The hit that this tap takes: the nearest, or, when the last tap was at the same place, the one after the one it took.
 *
 * @param last the last tap and what it took; null when there was none.
 */
export function pickHit<Kind>(
  hits: readonly Target<Kind>[],
  tap: { x: number; y: number },
  last: { x: number; y: number; took: Kind | null } | null,
): Target<Kind> | null {
  const isSamePlace = last !== null && Math.hypot(last.x - tap.x, last.y - tap.y) <= fingerReach / 2;
  const before = isSamePlace ? hits.findIndex((hit) => hit.meant === last.took) : -1;
  return hits[(before + 1) % Math.max(1, hits.length)] ?? null;
}
