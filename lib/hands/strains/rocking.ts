import type { HandStroke } from "../hand-stroke";

/**
 * The load of strokes that a hand plays by rocking: it is parted at a key, and each side counts the strokes that it has a
 * share in. The easiest parting counts; a stroke over it counts on both sides, so that repeated chords gain nothing.
 * Taking a note away takes nothing from anybody: each side has fewer strokes, or the same.
 *
 * @param size strokes that make a rate.
 * @param limit strokes of one side a second, with ease.
 * @param whole what the load is without rocking, and so at most.
 */
export function leastOfRocking(
  strokes: readonly HandStroke[],
  size: number,
  limit: number,
  whole: number,
): number {
  let least = whole;
  for (const from of findPartings(strokes)) {
    const under = loadOfSide(strokes, from, "under", size, limit, least);
    if (under < least) least = Math.max(under, loadOfSide(strokes, from, "over", size, limit, least));
  }
  return least;
}

/** Keys from which the upper side may begin: where a stroke begins, or right over one, some stroke is of one side alone. */
function findPartings(strokes: readonly HandStroke[]): Set<number> {
  const partings = new Set<number>();
  let [most, least] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const { lowest, highest } of strokes) {
    most = Math.max(most, lowest);
    least = Math.min(least, highest + 1);
  }
  // Outside of these every stroke has a share in the same side.
  for (const { lowest, highest } of strokes) {
    if (lowest >= least) partings.add(lowest);
    if (highest < most) partings.add(highest + 1);
  }
  return partings;
}

/** The load of one side; `enough` when it is no less than that. */
function loadOfSide(
  strokes: readonly HandStroke[],
  from: number,
  side: "under" | "over",
  size: number,
  limit: number,
  enough: number,
): number {
  const before: number[] = [];
  let [count, load] = [0, 0];
  for (const { lowest, highest, seconds, isBefore } of strokes) {
    if (side === "under" ? lowest >= from : highest < from) continue;
    const place = count % (size - 1);
    if (count >= size - 1 && !isBefore) {
      load = Math.max(load, (size - 1) / (seconds - (before[place] as number)) / limit);
      if (load >= enough) return enough;
    }
    before[place] = seconds;
    count += 1;
  }
  return load;
}
