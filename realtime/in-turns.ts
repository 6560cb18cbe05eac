import { setImmediate as nextTurn } from "node:timers/promises";

/** So few that whoever waits for them notices nothing. */
const usualSlice = 25;

/**
 * Does something to many, a few in each turn of the event loop, so that nobody's update waits for all of them. Who
 * is to be met is settled at the start.
 */
export async function inTurns<T>(
  things: Iterable<T>,
  act: (thing: T) => void,
  slice = usualSlice,
): Promise<void> {
  const all = [...things];
  for (let start = 0; start < all.length; start += slice) {
    if (start > 0) await nextTurn();
    for (const thing of all.slice(start, start + slice)) act(thing);
  }
}
