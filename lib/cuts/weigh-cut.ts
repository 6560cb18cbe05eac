import { countBars } from "@/lib/score/count-bars";
import type { CutSpan } from "@/lib/score/cut-span";
import { findSoloPart } from "@/lib/score/find-part";
import { leaveOut } from "@/lib/score/leave-out";
import { onsetOf } from "@/lib/score/onset-of";
import { findPerformedOrder, type PerformedOrder } from "@/lib/score/performed-order";
import { pieceLength } from "@/lib/score/piece-length";
import { isPlayed } from "@/lib/score/playing-spans";
import { positionAt } from "@/lib/score/position-at";
import { compareQuarters, noQuarters, subtractQuarters, writeQuarters } from "@/lib/score/quarters";
import { findRunningTime, type RunningTime } from "@/lib/score/running-time";
import type { Score } from "@/lib/score/score";
import { type Seconds, seconds } from "@/lib/score/seconds";
import type { TempoMap } from "@/lib/score/tempo-map";
import { writtenOrder } from "@/lib/score/written-order";
import { findRestAround, type RestAround } from "./rest-around";

/** What a cut costs and saves, over the cuts that are agreed already. */
export interface CutWeight {
  /** Bars left out, each counted once, however often it is repeated; see `countBars`. */
  readonly barCount: number;
  /** By which the performance becomes shorter, all repeats counted. */
  readonly savedSeconds: Seconds;
  readonly runningBefore: RunningTime;
  readonly runningAfter: RunningTime;
  /** The soloist's rest in which the cut lies, without and with it; null when the soloist plays on both sides of it. */
  readonly rest: RestAround | null;
  /** Ids of the solo notes that are left out, in written order. */
  readonly soloNotesLost: readonly string[];
  readonly evidence: {
    /** How many times the cut is passed in a performance. */
    readonly passes: number;
    /** What the cut takes beyond what is agreed, in quarters of performed time. */
    readonly performedQuarters: string;
  };
}

function findLostNotes(score: Score, cut: CutSpan): string[] {
  const [from, to] = [onsetOf(score, cut.from), onsetOf(score, cut.to)];
  const notes = findSoloPart(score)?.notes ?? [];
  return notes
    .filter(
      (note) =>
        isPlayed(note) && compareQuarters(note.onset, from) >= 0 && compareQuarters(note.onset, to) < 0,
    )
    .map((note) => note.id);
}

/** Bars of the cut as printed, as if nothing were repeated; the pieces of a bar at its ends count together. */
function countCutBars(score: Score, cut: CutSpan): number {
  const before = { from: positionAt(score, noQuarters), to: cut.from };
  const after = { from: cut.to, to: positionAt(score, pieceLength(score)) };
  const taken = leaveOut(score, writtenOrder(score), [before, after]);
  return countBars(score, taken, noQuarters, taken.length).count;
}

function countPasses(order: PerformedOrder, cut: CutSpan): number {
  const passes = order.bars.filter(({ barIndex, from, to }) => {
    const holds = compareQuarters(from, cut.from.offset) <= 0 && compareQuarters(cut.from.offset, to) <= 0;
    return barIndex === cut.from.barIndex && holds;
  });
  return passes.length;
}

/**
 * What one more cut does to the running time and to the soloist's rest.
 *
 * @param agreed the cuts that are made anyway.
 * @throws RangeError if a cut cannot be made; ask `checkCut` first.
 */
export function weighCut(score: Score, map: TempoMap, agreed: readonly CutSpan[], cut: CutSpan): CutWeight {
  const whole = findPerformedOrder(score);
  const before = leaveOut(score, whole, agreed);
  const after = leaveOut(score, whole, [...agreed, cut]);
  const runningBefore = findRunningTime(score, before, map);
  const runningAfter = findRunningTime(score, after, map);
  return {
    barCount: countCutBars(score, cut),
    savedSeconds: seconds(runningBefore.seconds - runningAfter.seconds),
    runningBefore,
    runningAfter,
    rest: findRestAround(score, map, { before, after }, cut),
    soloNotesLost: findLostNotes(score, cut),
    evidence: {
      passes: countPasses(before, cut),
      performedQuarters: writeQuarters(subtractQuarters(before.length, after.length)),
    },
  };
}
