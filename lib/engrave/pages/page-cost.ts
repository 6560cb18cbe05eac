/** What the look of pages costs, in the measure of `turnStrain`: 100 is a turn for which no hand is free. Weighed by eye. */

/** Every page is one more to turn and to carry. */
const eachPage = 6;
/** An empty page; a page that is half full costs an eighth of it, and one that is nine tenths full nothing to speak of. */
const emptyPage = 150;
/**
 * What a page that is less than half full costs on top, were it empty: half a page is given for a turn that is easy instead of hopeless, a
 * line alone on its page for none.
 */
const barePage = 120;
const bareShare = 0.5;
/** A last page that is less full than this looks forgotten. */
const leastLastShare = 0.3;
const forlornPage = 20;

/** @param share of its room that a page uses. */
export function pageCost(share: number, isLast: boolean): number {
  const used = Math.min(1, Math.max(0, share));
  const bare = barePage * Math.max(0, 1 - used / bareShare);
  if (!isLast) return eachPage + emptyPage * (1 - used) ** 3 + bare;
  return eachPage + forlornPage * Math.max(0, 1 - used / leastLastShare);
}

/**
 * @param fullness of a system: its bars at the engraver's own spacing, in widths of the line. Too full is worse than too
 * empty.
 */
export function systemCost(fullness: number): number {
  const off = fullness - 1;
  return (off > 0 ? 1500 : 100) * Math.abs(off) ** 3;
}

/** A last line may end anywhere, but a bar alone at the left looks forgotten. */
const leastLastLine = 0.35;
const forlornLine = 8;

/** @param fullness of the last system, as for `systemCost`. */
export function lastSystemCost(fullness: number): number {
  return fullness > 1 ? systemCost(fullness) : forlornLine * Math.max(0, 1 - fullness / leastLastLine);
}
