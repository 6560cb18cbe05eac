import type { TempoTerms } from "@/lib/edition/tempo-terms";
import { toTempoSettings } from "@/lib/edition/tempo-terms";
import { findPerformedOrder, type PerformedOrder } from "@/lib/score/performed-order";
import type { Position } from "@/lib/score/position";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  laterOf,
  noQuarters,
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
