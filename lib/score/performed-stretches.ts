import type { PerformedOrder } from "./performed-order";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  isEqualQuarters,
  laterOf,
  type Quarters,
  subtractQuarters,
} from "./quarters";
import type { Score } from "./score";

/** Performed time, end inclusive where it is only touched. */
export interface PerformedStretch {
  readonly from: Quarters;
  readonly to: Quarters;
}

/**
 * Performed stretches of an order in which written time `[from, to]` sounds, and the moments at which it is touched;
 * stretches that touch are one.
 */
export function findPerformedStretches(
  score: Score,
  order: PerformedOrder,
  from: Quarters,
  to: Quarters,
): PerformedStretch[] {
  const stretches: PerformedStretch[] = [];
  for (const performed of order.bars) {
    const start = score.bars[performed.barIndex]?.start;
    if (!start) continue;
    const begin = laterOf(addQuarters(start, performed.from), from);
    const end = earlierOf(addQuarters(start, performed.to), to);
    if (compareQuarters(begin, end) > 0) continue;
    const shift = subtractQuarters(performed.start, addQuarters(start, performed.from));
    const stretch = { from: addQuarters(begin, shift), to: addQuarters(end, shift) };
    const last = stretches.at(-1);
    if (last && isEqualQuarters(last.to, stretch.from))
      stretches[stretches.length - 1] = { from: last.from, to: stretch.to };
    else stretches.push(stretch);
  }
  return stretches;
}
