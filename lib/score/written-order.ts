import type { PerformedOrder } from "./performed-order";
import { pieceLength } from "./piece-length";
import { noQuarters } from "./quarters";
import type { Score } from "./score";

/** Every bar once, as on the page: the order for counting what is printed. */
export function writtenOrder(score: Score): PerformedOrder {
  const bars = score.bars.map((bar) => {
    return { barIndex: bar.index, pass: 1, from: noQuarters, to: bar.length, start: bar.start };
  });
  return { bars, length: pieceLength(score), notices: [] };
}
