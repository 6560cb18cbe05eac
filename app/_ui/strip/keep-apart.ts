/**
 * Things with a left edge and a width, in order, of which a later one that would touch an earlier one is dropped.
 *
 * @param gap pixels to keep between the end of one and the start of the next.
 */
export function keepApart<T>(
  items: readonly T[],
  edges: (item: T) => { x: number; width: number },
  gap: number,
): T[] {
  let end = Number.NEGATIVE_INFINITY;
  return items.filter((item) => {
    const { x, width } = edges(item);
    if (x < end + gap) return false;
    end = x + width;
    return true;
  });
}
