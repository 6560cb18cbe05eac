import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { onsetOf } from "@/lib/score/onset-of";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { positionPlayedFrom, positionPlayedUpTo } from "@/lib/score/performed-positions";
import { pieceLength } from "@/lib/score/piece-length";
import { positionAt } from "@/lib/score/position-at";
import { quarters, quartersAsNumber } from "@/lib/score/quarters";
import { at, buildScore } from "../../builders/build-score";

const score = buildScore({ metre: "3/4", solo: "c4:q | d4:h. | 4/4 e4:w | 3/4 f4:h." });

describe("positions and written time", () => {
  it.each([
    [at(0), 0],
    [at(1), 1],
    [at(1, "3/2"), 2.5],
    [at(2), 4],
    [at(3, 3), 11],
  ])("%j is quarter %f", (position, onset) => {
    expect(quartersAsNumber(onsetOf(score, position))).toBe(onset);
  });

  it("writes a place on a bar line as the start of the next bar, the end as the end of the last", () => {
    expect(positionAt(score, quarters(4))).toEqual(at(2));
    expect(positionAt(score, pieceLength(score))).toEqual(at(3, 3));
  });

  it("is one-to-one but for the ends of bars", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 11 * 24 }), (ticks) => {
        const onset = quarters(ticks, 24);
        expect(onsetOf(score, positionAt(score, onset))).toEqual(onset);
      }),
    );
  });

  it.each([at(-1), at(4), at(1, 4), at(1, -1)])("refuses %j", (position) => {
    expect(() => onsetOf(score, position)).toThrow(RangeError);
  });

  it("refuses times outside the piece", () => {
    expect(() => positionAt(score, quarters(-1, 24))).toThrow(RangeError);
    expect(() => positionAt(score, quarters(12))).toThrow(RangeError);
  });
});

describe("places in the performed order", () => {
  const order = findPerformedOrder(buildScore({ metre: "2/4", solo: "c4:h | d4 :| e4" }));
  const folded = buildScore({ metre: "2/4", solo: "c4:h | d4 :| e4" });

  it("starts from the bar that is played next and ends with the bar just played", () => {
    expect(positionPlayedFrom(order, quarters(4))).toEqual(at(0));
    expect(positionPlayedUpTo(folded, order, quarters(4))).toEqual(at(2));
    expect(positionPlayedFrom(order, quarters(5))).toEqual(at(0, 1));
    expect(positionPlayedUpTo(folded, order, quarters(10))).toEqual(at(2, 2));
    expect(() => positionPlayedFrom(order, quarters(11))).toThrow(RangeError);
  });
});
