import { describe, expect, test } from "vitest";
import { placeAir, placeWishes } from "@/app/_ui/strip/air-row";
import { stackRows } from "@/app/_ui/strip/rows";
import { makeScale } from "@/app/_ui/strip/scale";

const scale = makeScale(100, 1000, []);
const stretch = (from: number, to: number, isLong = false) => ({ from, to, seconds: to - from, isLong });

describe("the row of air", () => {
  test("a stretch is as high as it is long, beside the longest or what is comfortable", () => {
    const { wedges, lineHeight } = placeAir(
      { stretches: [stretch(0, 6), stretch(6, 18, true)], comfortableSeconds: 10 },
      scale,
    );
    expect(wedges.map(({ x, end, height }) => [x, end, height])).toEqual([
      [0, 60, 12],
      [60, 180, 24],
    ]);
    expect(lineHeight).toBe(20);
  });

  test.each([
    ["a comfortable one has no figure", [stretch(0, 6)], [null]],
    ["a long one has one", [stretch(0, 14, true)], ["14 s"]],
    [
      "one whose figure would lie on the last has none",
      [stretch(0, 14, true), stretch(14, 16, true)],
      ["14 s", null],
    ],
  ])("%s", (_, stretches, figures) => {
    const { wedges } = placeAir({ stretches, comfortableSeconds: null }, scale);
    expect(wedges.map(({ figure }) => figure)).toEqual(figures);
  });

  test("without a comfortable length there is no line", () => {
    expect(placeAir({ stretches: [], comfortableSeconds: null }, scale).lineHeight).toBeNull();
  });
});

test.each([
  ["ends at its entry", 50, 20, [300, 500]],
  ["begins with the piece at the earliest", 10, 20, [0, 100]],
  ["is never too narrow to see", 50, 0.1, [494, 500]],
])("a wished rest %s", (_, at, seconds, [x, end]) => {
  const wish = { id: "w", at, seconds, text: "20 s", isReleased: false };
  expect(placeWishes([wish], scale)).toEqual([{ x, end, text: "20 s", wish }]);
});

test("the soloist's strip has a row for air, the others none", () => {
  expect(stackRows("air").air).not.toBeNull();
  expect(stackRows("air-stand").breaths).not.toBeNull();
  expect([stackRows("desk").air, stackRows("stand").air]).toEqual([null, null]);
});

test("of two wishes before one entry the one that holds has the words, of two that hold the longer", () => {
  const wish = (id: string, seconds: number, isReleased = false) => ({
    ...{ id, seconds, isReleased, at: 50, text: id },
  });
  const texts = (...wishes: ReturnType<typeof wish>[]) =>
    placeWishes(wishes, scale).flatMap(({ text }) => text ?? []);
  expect(texts(wish("let go", 22, true), wish("holds", 20))).toEqual(["holds"]);
  expect(texts(wish("shorter", 18), wish("longer", 20))).toEqual(["longer"]);
});
