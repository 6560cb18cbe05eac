import type { Stretch } from "@/app/_ui/strip/strip-piece";
import type { TempoTerms } from "@/lib/edition/tempo-terms";
import { toTempoSettings } from "@/lib/edition/tempo-terms";
import type { CutSpan } from "@/lib/score/cut-span";
import { findPerformedOrder, type PerformedBar, type PerformedOrder } from "@/lib/score/performed-order";
import type { Position } from "@/lib/score/position";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  laterOf,
  noQuarters,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { readTempoMap, type TempoMap } from "@/lib/score/tempo-map";
import { readTimeline, type Timeline } from "@/lib/score/timeline";
import { findTuttis, type Tutti } from "@/lib/tutti/find-tuttis";

/** A score laid along the clock as written, nothing cut. */
export interface ScoreInTime {
  readonly score: Score;
  readonly order: PerformedOrder;
  readonly map: TempoMap;
  readonly timeline: Timeline;
  readonly tuttis: readonly Tutti[];
}

export function layInTime(score: Score, tempo: TempoTerms, longBars: number): ScoreInTime {
  const order = findPerformedOrder(score);
  const map = readTempoMap(score, toTempoSettings(tempo));
  return {
    score,
    order,
    map,
    timeline: readTimeline(score, order, map),
    tuttis: findTuttis(score, order, map, { longBars }),
  };
}

/** The offsets of a span inside one bar; null when it does not touch the bar. */
function insideBar(bar: PerformedBar, span: CutSpan): { from: Quarters; to: Quarters } | null {
  if (bar.barIndex < span.from.barIndex || bar.barIndex > span.to.barIndex) return null;
  const from = bar.barIndex === span.from.barIndex ? laterOf(bar.from, span.from.offset) : bar.from;
  const to = bar.barIndex === span.to.barIndex ? earlierOf(bar.to, span.to.offset) : bar.to;
  return compareQuarters(from, to) < 0 ? { from, to } : null;
}

/** Every stretch of the clock in which the music of a written span sounds: one for each time it is played. */
export function findStretches({ order, timeline }: ScoreInTime, span: CutSpan): Stretch[] {
  const stretches: { from: number; to: number; end: Quarters }[] = [];
  for (const bar of order.bars) {
    const inside = insideBar(bar, span);
    if (!inside) continue;
    const [start, end] = [inside.from, inside.to].map((offset) =>
      addQuarters(bar.start, subtractQuarters(offset, bar.from)),
    ) as [Quarters, Quarters]; // two in, two out
    const to = timeline.secondsAtPerformed(end);
    const open = stretches.at(-1);
    if (open && compareQuarters(open.end, start) === 0) Object.assign(open, { to, end });
    else stretches.push({ from: timeline.secondsAtPerformed(start), to, end });
  }
  return stretches.map(({ from, to }) => ({ from, to }));
}

/** The first moment at which a written place sounds; null when the performed order leaves it out. */
export function findMoment({ order, timeline }: ScoreInTime, position: Position): number | null {
  const bar = order.bars.find((performed) => performed.barIndex === position.barIndex);
  if (!bar) return null;
  const offset = earlierOf(laterOf(position.offset, bar.from), bar.to);
  return timeline.secondsAtPerformed(addQuarters(bar.start, subtractQuarters(offset, bar.from)));
}

/** Every moment at which the start of a written bar sounds. */
export function findMoments({ order, timeline }: ScoreInTime, barIndex: number): number[] {
  return order.bars.flatMap((bar, index) =>
    bar.barIndex === barIndex && compareQuarters(bar.from, noQuarters) === 0
      ? [timeline.bars[index]?.startSeconds ?? 0]
      : [],
  );
}
