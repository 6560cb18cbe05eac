import type { Bar } from "@/lib/score/bar";
import type { CutSpan } from "@/lib/score/cut-span";
import { onsetOf } from "@/lib/score/onset-of";
import { pieceLength } from "@/lib/score/piece-length";
import type { Position } from "@/lib/score/position";
import { addQuarters, compareQuarters, isEqualQuarters, type Quarters } from "@/lib/score/quarters";
import { findRepeatSpans, type RepeatSpan } from "@/lib/score/repeat-spans";
import { failure, type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";

/** Why a cut cannot be made as it stands. Bars by printed label. */
export type CutProblem =
  | { readonly kind: "cut-outside-piece"; readonly barCount: number; readonly barIndex: number }
  | { readonly kind: "cut-empty"; readonly barLabel: string }
  | { readonly kind: "cut-reversed"; readonly fromLabel: string; readonly toLabel: string }
  | {
      readonly kind: "cut-splits-repeat";
      readonly what: "repeat" | "ending" | "jump";
      readonly firstLabel: string;
      readonly lastLabel: string;
    }
  | { readonly kind: "cut-takes-everything"; readonly barCount: number };

/** What a cut takes away, in written time. */
class Taken {
  constructor(
    readonly from: Quarters,
    readonly to: Quarters,
  ) {}

  /** A sign at the start of a bar goes with the bar's first beat, one at its end with the last. */
  takesStart(bar: Bar): boolean {
    return compareQuarters(bar.start, this.from) >= 0 && compareQuarters(bar.start, this.to) < 0;
  }

  takesEnd(bar: Bar): boolean {
    const end = addQuarters(bar.start, bar.length);
    return compareQuarters(end, this.from) > 0 && compareQuarters(end, this.to) <= 0;
  }
}

function isInside(score: Score, position: Position): boolean {
  try {
    onsetOf(score, position);
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}

/** All signs of a repeated section stay, or all go. */
function splitsSection(score: Score, taken: Taken, span: RepeatSpan): "repeat" | "ending" | null {
  const [first, last] = [score.bars[span.first], score.bars[span.last]];
  if (!first || !last) return null;
  const takesLast = taken.takesEnd(last);
  // Without a start sign the repeat goes back to wherever the section begins: only its end can be torn off.
  const takesFirst = span.hasStartSign || takesLast ? taken.takesStart(first) : takesLast;
  if (takesFirst !== takesLast) return "repeat";
  const signs = span.endings.flatMap((ending) => {
    const [begin, end] = [score.bars[ending.first], score.bars[ending.last]];
    return begin && end ? [taken.takesStart(begin), taken.takesEnd(end)] : [];
  });
  return signs.some((sign) => sign !== takesLast) ? "ending" : null;
}

function findSplitSection(score: Score, spans: readonly RepeatSpan[], taken: Taken): CutProblem | null {
  for (const span of spans) {
    const what = splitsSection(score, taken, span);
    const [first, last] = [score.bars[span.first], score.bars[span.last]];
    if (what && first && last) {
      return { kind: "cut-splits-repeat", what, firstLabel: first.label, lastLabel: last.label };
    }
  }
  return null;
}

interface JumpSign {
  readonly bar: Bar;
  readonly isAtStart: boolean;
  readonly leadsBack: boolean;
}

function jumpSigns(bar: Bar): Omit<JumpSign, "bar">[] {
  const { segno, coda, toCoda, dalSegno, daCapo, fine } = bar.jumps;
  return [
    ...[segno, coda].flatMap((mark) => (mark === null ? [] : [{ isAtStart: true, leadsBack: false }])),
    ...(toCoda === null && !fine ? [] : [{ isAtStart: false, leadsBack: false }]),
    ...(dalSegno === null ? [] : [{ isAtStart: false, leadsBack: false }]),
    ...(daCapo ? [{ isAtStart: false, leadsBack: true }] : []),
  ];
}

/** D.C. leads back to the beginning, so it cannot go alone; of all other jump signs all go or none. */
function findSplitJump(all: readonly JumpSign[], taken: Taken): CutProblem | null {
  const signs = all.map((sign) => {
    return { ...sign, isTaken: sign.isAtStart ? taken.takesStart(sign.bar) : taken.takesEnd(sign.bar) };
  });
  const lost = signs.find((sign) => sign.isTaken);
  const kept = signs.find((sign) => !sign.isTaken);
  const torn = signs.find((sign) => sign.isTaken && (sign.leadsBack || kept !== undefined));
  if (!lost || !torn) return null;
  const labels = { firstLabel: lost.bar.label, lastLabel: torn.bar.label };
  return { kind: "cut-splits-repeat", what: "jump", ...labels };
}

/** For many cuts of one score: `checkCut` with the signs of the score read once. */
export function readCutRules(score: Score): (cut: CutSpan) => Result<CutSpan, CutProblem> {
  const repeats = findRepeatSpans(score.bars);
  const jumps = score.bars.flatMap((bar) => jumpSigns(bar).map((sign) => ({ bar, ...sign })));
  return (cut) => {
    const outside = [cut.from, cut.to].find((position) => !isInside(score, position));
    if (outside) {
      return failure({ kind: "cut-outside-piece", barCount: score.bars.length, barIndex: outside.barIndex });
    }
    const taken = new Taken(onsetOf(score, cut.from), onsetOf(score, cut.to));
    const label = (position: Position) => score.bars[position.barIndex]?.label ?? "";
    if (isEqualQuarters(taken.from, taken.to))
      return failure({ kind: "cut-empty", barLabel: label(cut.from) });
    if (compareQuarters(taken.from, taken.to) > 0) {
      return failure({ kind: "cut-reversed", fromLabel: label(cut.from), toLabel: label(cut.to) });
    }
    if (taken.from.num === 0 && isEqualQuarters(taken.to, pieceLength(score))) {
      return failure({ kind: "cut-takes-everything", barCount: score.bars.length });
    }
    const problem = findSplitSection(score, repeats, taken) ?? findSplitJump(jumps, taken);
    return problem ? failure(problem) : success(cut);
  };
}

/**
 * Whether a cut can be made as it stands: inside the piece, forward, of some length, not of everything, and without
 * tearing a repeat, an ending or a jump from its counterpart.
 */
export function checkCut(score: Score, cut: CutSpan): Result<CutSpan, CutProblem> {
  return readCutRules(score)(cut);
}
