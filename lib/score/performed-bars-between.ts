import type { PerformedBar, PerformedOrder } from "./performed-order";
import { addQuarters, compareQuarters, type Quarters, subtractQuarters } from "./quarters";

/** Performed time of the end of a bar, or of the piece of it that sounds. */
export function performedEnd({ start, from, to }: PerformedBar): Quarters {
  return addQuarters(start, subtractQuarters(to, from));
}

/** The performed bars that a stretch of performed time touches, end exclusive; bars without length at its ends too. */
export function performedBarsBetween(order: PerformedOrder, from: Quarters, to: Quarters): PerformedBar[] {
  let low = 0;
  let high = order.bars.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const bar = order.bars[middle];
    if (bar && compareQuarters(performedEnd(bar), from) < 0) low = middle + 1;
    else high = middle;
  }
  const found: PerformedBar[] = [];
  for (let index = low; index < order.bars.length; index += 1) {
    const bar = order.bars[index];
    if (!bar || compareQuarters(bar.start, to) > 0) break;
    found.push(bar);
  }
  return found;
}
