import type { PerformedBar, PerformedOrder } from "@/lib/score/performed-order";
import { isEqualQuarters } from "@/lib/score/quarters";

/**
 * Whether something was cut between two neighbouring pieces.
 *
 * @param before,after absent at the ends of the piece.
 */
export function isSeam(
  full: PerformedOrder,
  before: PerformedBar | undefined,
  after: PerformedBar | undefined,
): boolean {
  if (!before && !after) return false;
  if (!before) return after !== undefined && !isStart(full, after);
  if (!after) return !isEnd(full, before);
  if (before.barIndex === after.barIndex && before.pass === after.pass)
    return !isEqualQuarters(before.to, after.from);
  const at = full.bars.findIndex((bar) => isSameBar(bar, before));
  const [whole, next] = [full.bars[at], full.bars[at + 1]];
  if (!whole || !next) return true;
  return (
    !isSameBar(next, after) ||
    !isEqualQuarters(whole.to, before.to) ||
    !isEqualQuarters(next.from, after.from)
  );
}

function isStart({ bars }: PerformedOrder, piece: PerformedBar): boolean {
  const first = bars[0];
  return first !== undefined && isSameBar(first, piece) && isEqualQuarters(first.from, piece.from);
}

function isEnd({ bars }: PerformedOrder, piece: PerformedBar): boolean {
  const last = bars.at(-1);
  return last !== undefined && isSameBar(last, piece) && isEqualQuarters(last.to, piece.to);
}

/** One and the same bar in the same round. */
export function isSameBar(a: PerformedBar, b: PerformedBar): boolean {
  return a.barIndex === b.barIndex && a.pass === b.pass;
}
