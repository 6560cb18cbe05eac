import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CutSpan } from "@/lib/score/cut-span";
import { leaveOut } from "@/lib/score/leave-out";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { pieceLength } from "@/lib/score/piece-length";
import { positionAt } from "@/lib/score/position-at";
import {
  quarters,
  quartersAsNumber,
  scaleQuarters,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import { findRunningTime } from "@/lib/score/running-time";
import { readTempoMap } from "@/lib/score/tempo-map";
import { at, buildScore } from "../../builders/build-score";

/** What is left: label, and offsets where a bar is not whole. */
function left(solo: string, ...cuts: CutSpan[]): string {
  const score = buildScore({ solo });
  const { bars } = leaveOut(score, findPerformedOrder(score), cuts);
  return bars
    .map(({ barIndex, from, to }) => {
      const bar = score.bars[barIndex];
      const isWhole = from.num === 0 && bar !== undefined && subtractQuarters(bar.length, to).num === 0;
      return isWhole ? bar.label : `${bar?.label}(${writeQuarters(from)}–${writeQuarters(to)})`;
    })
    .join(" ");
}

const cut = (from: CutSpan["from"], to: CutSpan["to"]): CutSpan => ({ from, to });

describe("leaving out", () => {
  it.each<[string, string, CutSpan[], string]>([
    ["whole bars", "R*6", [cut(at(1), at(4))], "1 5 6"],
    ["from a beat to a beat", "R*6", [cut(at(1, 2), at(4, 3))], "1 2(0–2) 5(3–4) 6"],
    ["inside one bar", "R*2", [cut(at(0, 1), at(0, 3))], "1(0–1) 1(3–4) 2"],
    ["the beginning", "R*4", [cut(at(0), at(2, 2))], "3(2–4) 4"],
    ["the end", "R*4", [cut(at(2), at(3, 4))], "1 2"],
    ["several cuts, in any order", "R*8", [cut(at(5), at(7)), cut(at(1), at(2))], "1 3 4 5 8"],
    [
      "cuts that touch or overlap",
      "R*8",
      [cut(at(1), at(3)), cut(at(3), at(4)), cut(at(2), at(5))],
      "1 6 7 8",
    ],
    ["bars of a repeated section, each time", "R |: R*3 :| R", [cut(at(2), at(3))], "1 2 4 2 4 5"],
    ["a whole repeated section", "R |: R*3 :| R", [cut(at(1), at(4))], "1 5"],
    ["nothing", "R*3", [cut(at(1), at(1))], "1 2 3"],
  ])("%s", (_name, solo, cuts, expected) => {
    expect(left(solo, ...cuts)).toBe(expected);
  });

  it.each<[string, CutSpan]>([
    ["backwards", cut(at(2), at(1))],
    ["outside", cut(at(2), at(9))],
  ])("refuses a cut that goes %s", (_name, wrong) => {
    const score = buildScore({ solo: "R*4" });
    expect(() => leaveOut(score, findPerformedOrder(score), [wrong])).toThrow(RangeError);
  });

  const order = findPerformedOrder;
  const solo = "c4:q | c4:w |: R*3 | 3/4 c4:h. :| R*4";
  const score = buildScore({ tempo: 60, solo });
  const place = fc.integer({ min: 0, max: 240 }).map((part) => scaleQuarters(pieceLength(score), part, 240));
  const anyCut = fc.tuple(place, place).map(([a, b]) => {
    const [from, to] = subtractQuarters(a, b).num <= 0 ? [a, b] : [b, a];
    return cut(positionAt(score, from), positionAt(score, to));
  });

  it("changes nothing with an empty cut", () => {
    fc.assert(
      fc.property(place, (onset) => {
        const nowhere = positionAt(score, onset);
        expect(leaveOut(score, order(score), [cut(nowhere, nowhere)])).toEqual(order(score));
      }),
    );
  });

  it("takes off the cut's time at a constant tempo, once for each time it would sound", () => {
    const map = readTempoMap(score);
    fc.assert(
      fc.property(anyCut, (one) => {
        const whole = order(score);
        // Outside the function: sum what each performed bar shares with the cut, in plain numbers.
        const startOf = (index: number) => quartersAsNumber(score.bars[index]?.start ?? quarters(0));
        const [from, to] = [one.from, one.to].map((p) => startOf(p.barIndex) + quartersAsNumber(p.offset));
        const taken = whole.bars.reduce((sum, { barIndex, to: end }) => {
          const shared =
            Math.min(to ?? 0, startOf(barIndex) + quartersAsNumber(end)) -
            Math.max(from ?? 0, startOf(barIndex));
          return sum + Math.max(0, shared);
        }, 0);
        const before = findRunningTime(score, whole, map).seconds;
        const after = findRunningTime(score, leaveOut(score, whole, [one]), map).seconds;
        expect(after).toBeCloseTo(before - taken, 9);
      }),
    );
  });

  it("keeps performed time without gaps", () => {
    fc.assert(
      fc.property(fc.array(anyCut, { maxLength: 4 }), (cuts) => {
        const { bars, length } = leaveOut(score, order(score), cuts);
        let end = "0";
        for (const bar of bars) {
          expect(writeQuarters(bar.start)).toBe(end);
          const played = subtractQuarters(bar.to, bar.from);
          end = writeQuarters(
            quarters(bar.start.num * played.den + played.num * bar.start.den, bar.start.den * played.den),
          );
        }
        expect(writeQuarters(length)).toBe(end);
      }),
    );
  });
});
