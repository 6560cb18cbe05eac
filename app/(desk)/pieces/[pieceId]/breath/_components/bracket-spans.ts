import type { StripBar } from "@/app/_ui/strip/strip-piece";
import type { CutSpan } from "@/lib/score/cut-span";
import { comparePositions, type Position } from "@/lib/score/position";
import { noQuarters } from "@/lib/score/quarters";

/** A run of the page, end exclusive. */
export interface PageSpan {
  readonly from: Position;
  readonly to: Position;
}

/**
 * Where on the page something lies that is played without a break: one run, more when a repeat sends the players back or
 * a cut leaves something out.
 *
 * @param played bars in the order in which they sound, nothing cut.
 */
export function findPageSpans(
  { from, to }: PageSpan,
  played: readonly Pick<StripBar, "barIndex">[],
  cuts: readonly CutSpan[],
): PageSpan[] {
  const runs = comparePositions(from, to) < 0 ? [{ from, to }] : runsThroughRepeat({ from, to }, played);
  return cuts.reduce<PageSpan[]>((left, cut) => left.flatMap((run) => without(run, cut)), runs);
}

function without(run: PageSpan, cut: CutSpan): PageSpan[] {
  if (comparePositions(cut.to, run.from) <= 0 || comparePositions(cut.from, run.to) >= 0) return [run];
  const parts = [
    { from: run.from, to: cut.from },
    { from: cut.to, to: run.to },
  ];
  return parts.filter((part) => comparePositions(part.from, part.to) < 0);
}

/** The shortest way from one bar to another in the order of playing, as runs of bars that follow on the page. */
function runsThroughRepeat(
  { from, to }: PageSpan,
  played: readonly Pick<StripBar, "barIndex">[],
): PageSpan[] {
  // A stretch that ends with a bar is written as going up to the next.
  const last = to.offset.num === 0 ? to.barIndex - 1 : to.barIndex;
  let best: { start: number; end: number } | null = null;
  for (const [start, bar] of played.entries()) {
    if (bar.barIndex !== from.barIndex) continue;
    const end = played.findIndex(({ barIndex }, index) => index > start && barIndex === last);
    if (end >= 0 && (best === null || end - start < best.end - best.start)) best = { start, end };
  }
  if (!best) return [];
  const runs: { first: number; last: number }[] = [];
  for (const { barIndex } of played.slice(best.start, best.end + 1)) {
    const run = runs.at(-1);
    if (run && run.last + 1 === barIndex) run.last = barIndex;
    else runs.push({ first: barIndex, last: barIndex });
  }
  return runs.map((run, index) => ({
    from: index === 0 ? from : { barIndex: run.first, offset: noQuarters },
    to: index === runs.length - 1 ? to : { barIndex: run.last + 1, offset: noQuarters },
  }));
}

/** The system in which most bars of a run stand, by its first bar: there it has its words. */
export function wordsAt({ from, to }: PageSpan, firstBars: readonly number[]): number | null {
  const lastBar = to.offset.num === 0 ? to.barIndex - 1 : to.barIndex;
  let best: { first: number; count: number } | null = null;
  for (const [index, first] of firstBars.entries()) {
    const end = (firstBars[index + 1] ?? Number.POSITIVE_INFINITY) - 1;
    const count = Math.min(lastBar, end) - Math.max(from.barIndex, first) + 1;
    if (count > (best?.count ?? 0)) best = { first, count };
  }
  return best?.first ?? null;
}
