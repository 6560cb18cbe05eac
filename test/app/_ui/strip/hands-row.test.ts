import { describe, expect, test } from "vitest";
import {
  comfortableDifficulty,
  heightOfDifficulty,
  placeHandsBars,
  placeTempi,
  placeTriangles,
} from "@/app/_ui/strip/hands-row";
import { makeScale } from "@/app/_ui/strip/scale";

const barsOf = (difficulties: readonly number[], seconds = 2) =>
  difficulties.map((difficulty, index) => ({
    from: index * seconds,
    to: (index + 1) * seconds,
    difficulty,
  }));

describe("the columns of the hands", () => {
  test("are one a bar where there is room, black above the line of what is comfortable", () => {
    const bars = barsOf([20, 50, 51, 0, 70]);
    const columns = placeHandsBars(bars, makeScale(10, 500));
    expect(columns.map(({ x }) => x)).toEqual([0, 100, 200, 400]);
    expect(columns.map(({ isAwkward }) => isAwkward)).toEqual([false, false, true, true]);
    const line = heightOfDifficulty(comfortableDifficulty);
    expect(columns.map(({ height }) => height > line)).toEqual([false, false, true, true]);
  });

  test("share a column where bars are narrower than can be seen, and the hardest counts", () => {
    const bars = barsOf(Array.from({ length: 600 }, (_, index) => (index % 20 === 7 ? 80 : 10)));
    const columns = placeHandsBars(bars, makeScale(1200, 900));
    expect(columns.length).toBeLessThan(320);
    expect(columns.filter(({ isAwkward }) => isAwkward)).toHaveLength(30);
    for (const [index, { x }] of columns.entries())
      expect(x).toBeGreaterThan((columns[index - 1]?.x ?? -10) + 2.5);
  });

  test("leave out what is not drawn because a cut is closed", () => {
    const columns = placeHandsBars(barsOf([60, 60, 60]), makeScale(6, 300, [{ from: 2, to: 4 }]));
    expect(columns.map(({ x }) => x)).toEqual([0, 150]);
  });
});

describe("the triangles of the passages", () => {
  const passage = (from: number, isSolved: boolean) => ({
    ...{ from, to: from + 4, isSolved },
    ...{ firstBar: 0, lastBar: 0 },
  });

  test("stand over the middle, and an open one is not hidden by a settled one", () => {
    const scale = makeScale(400, 400);
    const all = [passage(0, false), passage(100, true), passage(104, false), passage(200, true)];
    expect(placeTriangles(all, scale)).toEqual([
      { x: 2, isSolved: false },
      { x: 106, isSolved: false },
      { x: 202, isSolved: true },
    ]);
  });
});

describe("what is not yet at tempo", () => {
  const mark = (from: number, short = "75→126") => ({ from, to: from + 4, short, words: short });

  test("stands beside its triangle, where the next leaves it room", () => {
    const scale = makeScale(400, 400);
    const triangles = [0, 100, 120, 390].map((from) => ({ x: scale.x(from + 2), isSolved: false }));
    const placed = placeTempi([mark(0), mark(100), mark(120, "→96"), mark(390)], triangles, scale);
    expect(placed.map(({ short, x }) => `${short} at ${Math.round(x)}`)).toEqual([
      "75→126 at 10",
      "→96 at 130",
    ]);
  });
});
