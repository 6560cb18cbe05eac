import type { PerformedOrder } from "./performed-order";
import { compareQuarters, type Quarters } from "./quarters";

/** Number, in an order, of the last bar that begins at a performed time or before it; -1 when none does. */
export function findPerformedBar({ bars }: PerformedOrder, performed: Quarters): number {
  let [low, high] = [0, bars.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    const bar = bars[middle];
    if (bar && compareQuarters(bar.start, performed) <= 0) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
