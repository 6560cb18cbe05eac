import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { inspectScore } from "@/lib/inspect/inspect-score";
import { leaveOut } from "@/lib/score/leave-out";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { pieceLength } from "@/lib/score/piece-length";
import { positionAt } from "@/lib/score/position-at";
import {
  addQuarters,
  compareQuarters,
  noQuarters,
  scaleQuarters,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import { findRunningTime } from "@/lib/score/running-time";
import type { Score } from "@/lib/score/score";
import { readTempoMap } from "@/lib/score/tempo-map";
import { writtenOrder } from "@/lib/score/written-order";
import { writtenSeconds } from "@/lib/score/written-seconds";
import { findTuttis } from "@/lib/tutti/find-tuttis";
import { arbitraryScore } from "../../builders/arbitrary-score";

/** A place of a piece as a share of its length. */
const share = fc.integer({ min: 0, max: 64 });
const placeAt = (score: Score, part: number) => scaleQuarters(pieceLength(score), part, 64);

/** The score at one tempo throughout: no marks, no words, no fermatas. */
function atOneTempo(score: Score): Score {
  const parts = score.parts.map((part) => ({
    ...part,
    directions: [],
    notes: part.notes.map((note) => ({ ...note, hasFermata: false })),
    rests: part.rests.map((rest) => ({ ...rest, hasFermata: false })),
  }));
  return { ...score, title: null, movement: null, tempoMarks: [], parts };
}

describe("laws of every score", () => {
  it("bars tile the piece", () => {
    fc.assert(
      fc.property(arbitraryScore, (score) => {
        let end = noQuarters;
        for (const bar of score.bars) {
          expect(writeQuarters(bar.start)).toBe(writeQuarters(end));
          end = addQuarters(bar.start, bar.length);
        }
        expect(pieceLength(score)).toEqual(end);
      }),
    );
  });

  it("performed time has no gap, and each performed bar is a whole bar of the piece", () => {
    fc.assert(
      fc.property(arbitraryScore, (score) => {
        const order = findPerformedOrder(score);
        let end = noQuarters;
        for (const { barIndex, start, from, to } of order.bars) {
          expect(start).toEqual(end);
          expect(from.num).toBe(0);
          expect(to).toEqual(score.bars[barIndex]?.length);
          end = addQuarters(start, to);
        }
        expect(order.length).toEqual(end);
      }),
    );
  });

  it("an empty cut changes nothing", () => {
    fc.assert(
      fc.property(arbitraryScore, share, (score, part) => {
        const order = findPerformedOrder(score);
        const nowhere = positionAt(score, placeAt(score, part));
        expect(leaveOut(score, order, [{ from: nowhere, to: nowhere }])).toEqual(order);
      }),
    );
  });

  it("what a cut leaves and what it takes add up, in quarters exactly and in seconds at one tempo", () => {
    fc.assert(
      fc.property(arbitraryScore, share, share, (any, a, b) => {
        const score = atOneTempo(any);
        const order = findPerformedOrder(score);
        const [from, to] = [
          positionAt(score, placeAt(score, Math.min(a, b))),
          positionAt(score, placeAt(score, Math.max(a, b))),
        ];
        const [start, end] = [positionAt(score, noQuarters), positionAt(score, pieceLength(score))];
        const left = leaveOut(score, order, [{ from, to }]);
        const taken = leaveOut(score, order, [
          { from: start, to: from },
          { from: to, to: end },
        ]);
        expect(addQuarters(left.length, taken.length)).toEqual(order.length);
        const map = readTempoMap(score);
        const lasts = (played: typeof order) => findRunningTime(score, played, map).seconds;
        expect(lasts(left) + lasts(taken)).toBeCloseTo(lasts(order), 6);
      }),
    );
  });

  it("seconds add up at any place, whatever the tempi", () => {
    fc.assert(
      fc.property(arbitraryScore, share, (score, part) => {
        const map = readTempoMap(score);
        const [middle, end] = [placeAt(score, part), pieceLength(score)];
        const sum = writtenSeconds(map, noQuarters, middle) + writtenSeconds(map, middle, end);
        expect(sum).toBeCloseTo(writtenSeconds(map, noQuarters, end), 6);
        expect(findRunningTime(score, writtenOrder(score), map).seconds).toBeCloseTo(sum, 6);
      }),
    );
  });

  it("tuttis lie in order inside the piece, without overlap, each with its exact length", () => {
    fc.assert(
      fc.property(arbitraryScore, (score) => {
        const order = findPerformedOrder(score);
        let end = noQuarters;
        for (const tutti of findTuttis(score, order, readTempoMap(score))) {
          expect(compareQuarters(tutti.performedFrom, end)).toBeGreaterThanOrEqual(0);
          expect(subtractQuarters(tutti.performedTo, tutti.performedFrom)).toEqual(tutti.quarters);
          expect(tutti.seconds).toBeGreaterThanOrEqual(2);
          end = tutti.performedTo;
        }
        expect(compareQuarters(end, order.length)).toBeLessThanOrEqual(0);
      }),
    );
  });

  it("can be inspected, whatever it says", () => {
    fc.assert(
      fc.property(arbitraryScore, (score) => {
        const report = inspectScore({ score, notices: [] });
        expect(report.bars.count).toBe(score.bars.length);
        expect(report.runningTime.low).toBeLessThan(report.runningTime.high);
      }),
    );
  });
});
