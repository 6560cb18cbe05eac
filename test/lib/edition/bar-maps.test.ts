import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type BarMap, mapPlace, readBarMap } from "@/lib/edition/bar-maps";
import { compareBars } from "@/lib/edition/compare-bars";
import type { CutSpan } from "@/lib/score/cut-span";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { quarters, readQuarters, scaleQuarters, writeQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { writtenOrder } from "@/lib/score/written-order";
import { arbitraryCutPlaces, placeCuts } from "@/test/builders/arbitrary-cuts";
import { arbitraryScore } from "@/test/builders/arbitrary-score";
import { at, buildScore } from "@/test/builders/build-score";

// An upbeat, bars 1 and 2 played twice with two endings, bars 4 to 6 once.
const score = buildScore({
  metre: "4/4",
  solo: "c5:q | |: d5:w | [1. e5 :| [2. f5 ] | g5 | a5 | b5",
});
const order = findPerformedOrder(score);
const mapWith = (...cuts: CutSpan[]) => readBarMap(score, order, cuts);
const place = (barIndex: number, offset: string, pass = 1) => ({
  barIndex,
  offset: readQuarters(offset)!,
  pass,
});

describe("from the print to an edition and back", () => {
  const plain = mapWith();
  // From the third beat of bar 4 to the second of bar 6.
  const cut = mapWith({ from: at(4, 2), to: at(6, 1) });

  test.each([
    ["the upbeat", place(0, "0"), "0", 1],
    ["a bar, the first time", place(1, "0"), "1", 2],
    ["the same bar, the second time", place(1, "3/2", 2), "21/2", 4],
    ["the second ending", place(3, "0"), "13", 5],
    ["before the cut", place(4, "7/4"), "75/4", 6],
    ["what is played after the cut", place(6, "1"), "19", 7],
  ])("%s", (_name, from, performed, barNumber) => {
    expect(cut.toEdition(from)).toEqual({ performed: readQuarters(performed), barNumber });
    expect(cut.toSource(readQuarters(performed)!)).toEqual({
      ...from,
      label: score.bars[from.barIndex]?.label,
    });
  });

  test.each([
    ["where the cut begins", place(4, "2")],
    ["a bar inside it", place(5, "0")],
    ["just before it ends", place(6, "3/4")],
    ["the first ending, a second time", place(2, "0", 2)],
    ["the end of a bar, which is the start of another", place(3, "4")],
    ["no bar at all", place(7, "0")],
  ])("%s has no place in the edition", (_name, from) => expect(cut.toEdition(from)).toBeNull());

  test("neither the end of the edition nor anything beyond comes from somewhere", () => {
    expect([quarters(-1, 4), cut.order.length, quarters(99)].map((time) => cut.toSource(time))).toEqual([
      null,
      null,
      null,
    ]);
  });

  test("a written place is found each time that it sounds", () => {
    expect(cut.findAll(at(1, 1)).map(({ performed }) => writeQuarters(performed))).toEqual(["2", "10"]);
    expect(cut.findAll(at(5))).toEqual([]);
  });

  test("from one edition to another, and null for what the other leaves out", () => {
    const earlier = mapWith({ from: at(1), to: at(4) });
    expect(mapPlace(earlier, cut, quarters(1))).toEqual({ performed: quarters(17), barNumber: 6 });
    expect(mapPlace(earlier, cut, quarters(6))).toBeNull();
    expect(mapPlace(cut, plain, quarters(19))).toEqual({ performed: quarters(26), barNumber: 8 });
  });

  test("bar by bar, what two editions play", () => {
    const told = compareBars(score, plain, cut).map(({ firstLabel, lastLabel, inA, inB }) => [
      `${firstLabel}–${lastLabel}`,
      inA,
      inB,
    ]);
    expect(told).toEqual([
      ["0–3", "whole", "whole"],
      ["4–4", "whole", "part"],
      ["5–5", "whole", "none"],
      ["6–6", "whole", "part"],
    ]);
  });
});

describe("laws", () => {
  const someMaps = fc
    .tuple(arbitraryScore, fc.boolean(), arbitraryCutPlaces, arbitraryCutPlaces)
    .map(([some, isWritten, ...places]) => {
      const whole = isWritten ? writtenOrder(some) : findPerformedOrder(some);
      const [a, b] = places.map((those) => readBarMap(some, whole, placeCuts(some, those)));
      return { some, whole, a: a!, b: b! };
    });

  /** Performed times of an edition: each edge of a bar or of a part of one, and places in between. */
  function timesOf({ order: { length, bars } }: BarMap) {
    const between = Array.from({ length: 36 }, (_, index) => scaleQuarters(length, index, 36));
    return [...bars.map(({ start }) => start), ...between].filter(
      (time) => writeQuarters(time) !== writeQuarters(length),
    );
  }

  test("every place of an edition comes from a place of the source that leads back to it", () => {
    fc.assert(
      fc.property(someMaps, ({ a }) => {
        for (const time of timesOf(a)) expect(a.toEdition(a.toSource(time)!)?.performed).toEqual(time);
      }),
    );
  });

  test("every place of the source is cut, or leads to a place of the edition that leads back to it", () => {
    fc.assert(
      fc.property(someMaps, ({ some, whole, a }) => {
        const print = readBarMap(some, whole, []);
        let cut = 0;
        for (const time of timesOf(print)) {
          const source = print.toSource(time)!;
          const image = a.toEdition(source);
          if (image) expect(a.toSource(image.performed)).toEqual(source);
          else cut += 1;
        }
        if (a.order === whole) expect(cut).toBe(0);
      }),
    );
  });

  test("from one edition to the other and back again is where one was, or nowhere", () => {
    fc.assert(
      fc.property(someMaps, ({ a, b }) => {
        for (const time of timesOf(a)) {
          const image = mapPlace(a, b, time);
          const isCut = b.toEdition(a.toSource(time)!) === null;
          expect(image === null).toBe(isCut);
          if (image) expect(mapPlace(b, a, image.performed)?.performed).toEqual(time);
        }
      }),
    );
  });

  test("the order of the music is kept, whatever is cut", () => {
    fc.assert(
      fc.property(someMaps, ({ some, whole, a }) => {
        const print = readBarMap(some, whole, []);
        const images = timesOf(print)
          .toSorted((x, y) => x.num * y.den - y.num * x.den)
          .flatMap((time) => mapPlace(print, a, time) ?? []);
        for (const [index, { performed, barNumber }] of images.entries()) {
          const before = images[index - 1];
          if (!before) continue;
          expect(performed.num * before.performed.den).toBeGreaterThanOrEqual(
            before.performed.num * performed.den,
          );
          expect(barNumber).toBeGreaterThanOrEqual(before.barNumber);
        }
      }),
    );
  });

  test("an edition and itself fare alike in every bar, and every bar is told of once", () => {
    fc.assert(
      fc.property(someMaps, ({ some, a, b }) => {
        expect(compareBars(some, a, a).every(({ inA, inB }) => inA === inB)).toBe(true);
        expect(barsOf(some, compareBars(some, a, b))).toEqual(some.bars.map(({ index }) => index));
      }),
    );
  });

  const barsOf = (some: Score, stretches: ReturnType<typeof compareBars>) =>
    stretches.flatMap(({ firstIndex, lastIndex }) =>
      some.bars.slice(firstIndex, lastIndex + 1).map(({ index }) => index),
    );
});
