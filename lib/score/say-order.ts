import type { PerformedBar, PerformedOrder } from "./performed-order";
import { isEqualQuarters } from "./quarters";
import type { Score } from "./score";

/** Whether `next` is printed right behind `bar` and neither has lost a part that lies between them. */
function goesOn(score: Score, bar: PerformedBar, next: PerformedBar): boolean {
  const length = score.bars[bar.barIndex]?.length;
  if (!length) return false;
  return next.barIndex === bar.barIndex + 1 && isEqualQuarters(bar.to, length) && next.from.num === 0;
}

/** The order in runs of printed bar labels: "1–8, 1–7, 9–40". A bar that a cut divides is named where it is played. */
export function sayOrder(score: Score, order: PerformedOrder): string {
  const label = (bar: PerformedBar) => score.bars[bar.barIndex]?.label ?? "";
  const runs: { first: PerformedBar; last: PerformedBar }[] = [];
  for (const bar of order.bars) {
    const run = runs.at(-1);
    if (run && goesOn(score, run.last, bar)) run.last = bar;
    else runs.push({ first: bar, last: bar });
  }
  return runs
    .map(({ first, last }) => (first === last ? label(first) : `${label(first)}–${label(last)}`))
    .join(", ");
}
