/**
 * Where a key takes the cursor.
 *
 * @param stops moments in time order.
 * @param here the cursor's moment.
 * @returns the next stop in that direction; null when there is none. A stop within a hundredth of a second is `here` itself.
 */
export function nextStop(stops: readonly number[], here: number, direction: 1 | -1): number | null {
  const near = 0.01;
  if (direction === 1) return stops.find((stop) => stop > here + near) ?? null;
  return stops.filter((stop) => stop < here - near).at(-1) ?? null;
}
