import { describe, expect, test } from "vitest";
import { nextStop } from "@/app/_ui/strip/next-stop";
import { rowHeights, stackRows } from "@/app/_ui/strip/rows";
import type { StripBar } from "@/app/_ui/strip/strip-piece";
import { findBarAt, findViewStretch } from "@/app/_ui/strip/view-frame";

/** Bars of ten seconds in the order given. */
const bars: StripBar[] = [0, 1, 2, 1, 2, 3].map((barIndex, place) => ({
  barIndex,
  label: `${barIndex + 1}`,
  from: place * 10,
  to: place * 10 + 10,
}));

describe("the frame of what the score shows", () => {
  test("a repeated section is framed where the reader is", () => {
    expect(findViewStretch(bars, 1, 2, 12)).toEqual({ from: 10, to: 30 });
    expect(findViewStretch(bars, 1, 2, 55)).toEqual({ from: 30, to: 50 });
  });

  test("bars that follow each other in both orders are one stretch", () => {
    expect(findViewStretch(bars, 0, 3, 0)).toEqual({ from: 0, to: 30 });
    expect(findViewStretch(bars, 2, 3, 50)).toEqual({ from: 40, to: 60 });
  });

  test("bars that never sound have no frame", () => {
    expect(findViewStretch(bars, 7, 9, 0)).toBeNull();
  });
});

describe("finding a bar by time", () => {
  test.each([
    [0, 0],
    [9.99, 0],
    [10, 1],
    [30, 3],
    [59, 5],
    [400, 5],
  ])("at %d s it is the bar in place %d", (second, place) => {
    expect(findBarAt(bars, second)).toBe(bars[place]);
  });
  test("there is none in a piece without bars", () => expect(findBarAt([], 3)).toBeNull());
});

describe("keys along the strip", () => {
  test.each([
    [0, 1, 10],
    [10, 1, 30],
    [10.005, 1, 30],
    [30, -1, 10],
    [25, -1, 10],
    [30, 1, null],
    [0, -1, null],
  ] as const)("from %d going %d to %s", (here, direction, expected) => {
    expect(nextStop([0, 10, 30], here, direction)).toBe(expected);
  });
});

test("rows lie under one another without a gap", () => {
  const desk = stackRows("desk");
  expect(desk.solo - desk.bridges).toBe(rowHeights.bridges);
  expect(desk.axis).toBe((desk.notes ?? 0) + rowHeights.notes);
  const stand = stackRows("stand");
  expect([stand.tempo, stand.bars, stand.breaths, stand.notes]).toEqual([null, null, null, null]);
  expect(stand.axis).toBe(rowHeights.letters + rowHeights.bridges + rowHeights.solo);
});
