import type { CutSpan } from "./cut-span";
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
    const barStart = score.bars[performed.barIndex]?.start;
    if (!barStart)
      throw new RangeError(`The order names bar index ${performed.barIndex}, which the score lacks`);
    for (const piece of keptPieces(barStart, performed, spans)) {
      bars.push({ ...piece, start });
      start = addQuarters(start, subtractQuarters(piece.to, piece.from));
    }
  }
  return { ...order, bars, length: start };
}
