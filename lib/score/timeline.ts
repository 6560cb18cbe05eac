import type { PerformedBar, PerformedOrder } from "./performed-order";
import {
  addQuarters,
  compareQuarters,
  noQuarters,
  type Quarters,
  quartersAsNumber,
  subtractQuarters,
  writeQuarters,
} from "./quarters";
import type { Score } from "./score";
import { type Seconds, seconds } from "./seconds";
import type { TempoMap } from "./tempo-segment";
import { quartersWithin, secondsWithin, segmentsBetween, writtenSeconds } from "./written-seconds";

export interface TimelineBar {
  /** Place in the performed order. */
  readonly performedIndex: number;
  readonly barIndex: number;
  readonly pass: number;
  readonly startSeconds: Seconds;
  readonly endSeconds: Seconds;
}

/** Clock time of everything in a performed order. */
export interface Timeline {
  readonly bars: readonly TimelineBar[];
  readonly totalSeconds: Seconds;
  /** @throws RangeError outside the piece. */
  secondsAtPerformed(performed: Quarters): Seconds;
  /** Performed quarters at a clock time, as a plain number: for drawing and for finding a bar, not for positions. */
  performedAtSeconds(time: Seconds): number;
}

interface Piece {
  readonly performed: PerformedBar;
  /** Written time of what sounds. */
  readonly from: Quarters;
  readonly to: Quarters;
  readonly startSeconds: number;
  readonly endSeconds: number;
}

function layPieces(score: Score, order: PerformedOrder, map: TempoMap): Piece[] {
  let now = 0;
  return order.bars.map((performed) => {
    const start = score.bars[performed.barIndex]?.start;
    if (!start)
      throw new RangeError(`The order names bar index ${performed.barIndex}, which the score lacks`);
    const [from, to] = [addQuarters(start, performed.from), addQuarters(start, performed.to)];
    const startSeconds = now;
    now += writtenSeconds(map, from, to);
    return { performed, from, to, startSeconds, endSeconds: now };
  });
}

/** The last piece for which `isReached` holds; pieces are in order, so it holds for a beginning of them. */
function lastReached(pieces: readonly Piece[], isReached: (piece: Piece) => boolean): Piece | null {
  let low = 0;
  let high = pieces.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const piece = pieces[middle];
    if (piece && isReached(piece)) low = middle + 1;
    else high = middle;
  }
  return pieces[low - 1] ?? null;
}

function secondsAt(pieces: readonly Piece[], map: TempoMap, performed: Quarters): number {
  const piece = lastReached(pieces, ({ performed: bar }) => compareQuarters(bar.start, performed) <= 0);
  if (!piece) return 0;
  const onset = addQuarters(piece.from, subtractQuarters(performed, piece.performed.start));
  return piece.startSeconds + writtenSeconds(map, piece.from, onset);
}

function performedAt(pieces: readonly Piece[], map: TempoMap, time: number): number {
  const piece = lastReached(pieces, ({ startSeconds }) => startSeconds <= time);
  if (!piece) return 0;
  let rest = time - piece.startSeconds;
  let performed = quartersAsNumber(piece.performed.start);
  for (const { segment, from, to } of segmentsBetween(map, piece.from, piece.to)) {
    const length = secondsWithin(segment, from, to);
    if (rest < length) return performed + quartersWithin(segment, from, rest);
    rest -= length;
    performed += quartersAsNumber(subtractQuarters(to, from));
  }
  return performed;
}

/** Lays a performed order, with or without cuts, along the clock. */
export function readTimeline(score: Score, order: PerformedOrder, map: TempoMap): Timeline {
  const pieces = layPieces(score, order, map);
  const total = pieces.at(-1)?.endSeconds ?? 0;
  const bars = pieces.map(({ performed, startSeconds, endSeconds }, performedIndex) => ({
    performedIndex,
    barIndex: performed.barIndex,
    pass: performed.pass,
    startSeconds: seconds(startSeconds),
    endSeconds: seconds(endSeconds),
  }));
  return {
    bars,
    totalSeconds: seconds(total),
    secondsAtPerformed(performed) {
      if (compareQuarters(performed, noQuarters) < 0 || compareQuarters(performed, order.length) > 0) {
        const length = writeQuarters(order.length);
        throw new RangeError(`Performed time ${writeQuarters(performed)} lies outside ${length} quarters`);
      }
      return seconds(secondsAt(pieces, map, performed));
    },
    performedAtSeconds(time) {
      return performedAt(pieces, map, Math.min(Math.max(time, 0), total));
    },
  };
}
