import type { PerformedBar, PerformedOrder } from "@/lib/score/performed-order";
import { isEqualQuarters } from "@/lib/score/quarters";

/** Whether something was cut between two neighbouring pieces: whether the whole order has anything between them. */
export function isSeam(full: PerformedOrder, before: PerformedBar, after: PerformedBar): boolean {
  if (isSameBar(before, after)) return !isEqualQuarters(before.to, after.from);
  const at = full.bars.findIndex((bar) => isSameBar(bar, before));
  const [whole, next] = [full.bars[at], full.bars[at + 1]];
  if (!whole || !next) return true;
  return (
    !isSameBar(next, after) ||
    !isEqualQuarters(whole.to, before.to) ||
    !isEqualQuarters(next.from, after.from)
  );
}

/** One and the same bar in the same round. */
export function isSameBar(a: PerformedBar, b: PerformedBar): boolean {
  return a.barIndex === b.barIndex && a.pass === b.pass;
}
