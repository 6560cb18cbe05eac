import type { PerformedOrder } from "@/lib/score/performed-order";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  isEqualQuarters,
  laterOf,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import type { SilentSpan } from "@/lib/score/silent-spans";

/** A stretch of the page that is played in one go, between two jumps. Written time. */
export interface WrittenRun {
  readonly from: Quarters;
  readonly to: Quarters;
  /** Performed time of `from`. */
  readonly performedFrom: Quarters;
}

/** The performed order as stretches of the page: one alone where nothing is repeated. */
export function findRuns(score: Score, order: PerformedOrder): WrittenRun[] {
  const runs: WrittenRun[] = [];
  for (const performed of order.bars) {
    const start = score.bars[performed.barIndex]?.start;
    if (!start) continue;
    const [from, to] = [addQuarters(start, performed.from), addQuarters(start, performed.to)];
    const last = runs.at(-1);
    if (last && isEqualQuarters(last.to, from)) runs[runs.length - 1] = { ...last, to };
    else runs.push({ from, to, performedFrom: performed.start });
  }
  return runs;
}

/** The piece of a silence that lies in a run, in written time; a point where the two only touch; null where they do not. */
export function clipToRun(run: WrittenRun, silence: SilentSpan): { from: Quarters; to: Quarters } | null {
  const shift = subtractQuarters(run.from, run.performedFrom);
  const from = laterOf(addQuarters(silence.from, shift), run.from);
  const to = earlierOf(addQuarters(silence.to, shift), run.to);
  return compareQuarters(from, to) <= 0 ? { from, to } : null;
}
