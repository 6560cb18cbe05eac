import { performedEnd } from "@/lib/score/performed-bars-between";
import type { PerformedOrder } from "@/lib/score/performed-order";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  laterOf,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";

/** What is played from one performed time to another; performed time begins anew. */
export function clipOrder(order: PerformedOrder, from: Quarters, to: Quarters): PerformedOrder {
  const bars = order.bars.flatMap((bar) => {
    const begin = laterOf(bar.start, from);
    const end = earlierOf(performedEnd(bar), to);
    if (compareQuarters(begin, end) >= 0) return [];
    const inBar = (performed: Quarters) => addQuarters(bar.from, subtractQuarters(performed, bar.start));
    return [{ ...bar, from: inBar(begin), to: inBar(end), start: subtractQuarters(begin, from) }];
  });
  return { ...order, bars, length: subtractQuarters(to, from) };
}
