import { type HandStroke, highestOf, lowestOf } from "../hand-stroke";

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
  for (const from of partings(strokes)) {
    const under = fastest(strokes, size, limit, least, (stroke) => lowestOf(stroke) < from);
    if (under >= least) continue;
    least = Math.max(
      under,
      fastest(strokes, size, limit, least, (stroke) => highestOf(stroke) >= from),
    );
  }
  return least;
}

/** The lowest keys of upper sides: where parting there gives some stroke to one side alone. */
function partings(strokes: readonly HandStroke[]): Set<number> {
  return new Set(strokes.flatMap((stroke) => [lowestOf(stroke), highestOf(stroke) + 1]));
}

/** The load of one side; `enough` when it is no less than that. */
function fastest(
  strokes: readonly HandStroke[],
  size: number,
  limit: number,
  enough: number,
  isOfSide: (stroke: HandStroke) => boolean,
): number {
  const last = new Float64Array(size - 1);
  let [count, load] = [0, 0];
  for (const stroke of strokes) {
    if (!isOfSide(stroke)) continue;
    const place = count % (size - 1);
    if (count >= size - 1 && !stroke.isBefore) {
      load = Math.max(load, (size - 1) / ((stroke.seconds - (last[place] as number)) * limit));
      if (load >= enough) return enough;
    }
    last[place] = stroke.seconds;
    count += 1;
  }
  return load;
}
