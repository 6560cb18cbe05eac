import type { CutSpan } from "./cut-span";
import { findPerformedBar } from "./find-performed-bar";
import { onsetOf } from "./onset-of";
import type { PerformedBar, PerformedOrder } from "./performed-order";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  laterOf,
  noQuarters,
  type Quarters,
  subtractQuarters,
} from "./quarters";
import type { Score } from "./score";

/** Written time, end exclusive. */
interface WrittenSpan {
  readonly from: Quarters;
  readonly to: Quarters;
}

/** What is cut, as separate spans in written order; empty cuts vanish. */
function mergeCuts(score: Score, cuts: readonly CutSpan[]): WrittenSpan[] {
  const spans = cuts.map((cut) => ({ from: onsetOf(score, cut.from), to: onsetOf(score, cut.to) }));
  for (const { from, to } of spans) {
    if (compareQuarters(from, to) > 0) throw new RangeError("A cut ends before it begins");
  }
  const merged: WrittenSpan[] = [];
  for (const span of spans.toSorted((a, b) => compareQuarters(a.from, b.from))) {
    if (compareQuarters(span.from, span.to) === 0) continue;
    const last = merged.at(-1);
    if (last && compareQuarters(span.from, last.to) <= 0) {
      merged[merged.length - 1] = { from: last.from, to: laterOf(last.to, span.to) };
    } else merged.push(span);
  }
  return merged;
}

/** What of `[from, to)` no cut touches. A span without length stays unless a cut lies over it. */
function keepOutside(span: WrittenSpan, cuts: readonly WrittenSpan[]): WrittenSpan[] {
  const kept: WrittenSpan[] = [];
  let from = span.from;
  for (const cut of cuts) {
    if (compareQuarters(cut.to, from) <= 0) continue;
    if (compareQuarters(cut.from, span.to) >= 0) break;
    if (compareQuarters(cut.from, from) > 0) kept.push({ from, to: cut.from });
    from = earlierOf(cut.to, span.to);
    if (compareQuarters(from, span.to) === 0) return kept;
  }
  kept.push({ from, to: span.to });
  return kept;
}

function keptPieces(barStart: Quarters, bar: PerformedBar, cuts: readonly WrittenSpan[]): PerformedBar[] {
  const span = { from: addQuarters(barStart, bar.from), to: addQuarters(barStart, bar.to) };
  return keepOutside(span, cuts).map((kept) => ({
    ...bar,
    from: subtractQuarters(kept.from, barStart),
    to: subtractQuarters(kept.to, barStart),
  }));
}

/**
 * The order without what the cuts leave out, every time it would have sounded: a cut inside a repeated section
 * counts in each round. A bar that a cut divides becomes one or two pieces of that bar. Cuts may touch or overlap.
 *
 * @throws RangeError if a cut lies outside the piece or ends before it begins; ask `checkCut` first.
 */
export function leaveOut(score: Score, order: PerformedOrder, cuts: readonly CutSpan[]): PerformedOrder {
  const spans = mergeCuts(score, cuts);
  if (spans.length === 0) return order;
  const bars: PerformedBar[] = [];
  let start = noQuarters;
  for (const performed of order.bars) {
    for (const piece of keptPieces(startOf(score, performed), performed, spans)) {
      bars.push({ ...piece, start });
      start = addQuarters(start, subtractQuarters(piece.to, piece.from));
    }
  }
  return { ...order, bars, length: start };
}

function startOf(score: Score, { barIndex }: PerformedBar): Quarters {
  const start = score.bars[barIndex]?.start;
  if (!start) throw new RangeError(`The order names bar index ${barIndex}, which the score lacks`);
  return start;
}

/**
 * How much is played before each place of an order once cuts are made: what `leaveOut` leaves of the order up to there.
 *
 * @returns takes a performed time of the order, and gives one of the order without the cuts.
 * @throws RangeError as `leaveOut` does.
 */
export function readPlayedBefore(
  score: Score,
  order: PerformedOrder,
  cuts: readonly CutSpan[],
): (end: Quarters) => Quarters {
  const spans = mergeCuts(score, cuts);
  if (spans.length === 0) return (end) => earlierOf(end, order.length);
  const lengthOf = (bar: PerformedBar) =>
    keptPieces(startOf(score, bar), bar, spans).reduce(
      (sum, { from, to }) => addQuarters(sum, subtractQuarters(to, from)),
      noQuarters,
    );
  const before: Quarters[] = [noQuarters];
  for (const bar of order.bars) before.push(addQuarters(before.at(-1) ?? noQuarters, lengthOf(bar)));
  return (end) => {
    const at = findPerformedBar(order, end);
    const bar = order.bars[at];
    if (!bar) return noQuarters;
    const to = earlierOf(addQuarters(bar.from, subtractQuarters(end, bar.start)), bar.to);
    return addQuarters(before[at] ?? noQuarters, lengthOf({ ...bar, to }));
  };
}
