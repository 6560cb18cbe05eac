import { describe, expect, test } from "vitest";
import { readBarMap } from "@/lib/edition/bar-maps";
import { findBar, findBarByLabel, sayBarInEdition } from "@/lib/edition/find-bar";
import type { CutSpan } from "@/lib/score/cut-span";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { at, buildScore } from "@/test/builders/build-score";

// An upbeat, bars 1 and 2 played twice with two endings, bars 4 to 6 once.
const score = buildScore({
  metre: "4/4",
  solo: "c5:q | |: d5:w | [1. e5 :| [2. f5 ] | g5 | a5 | b5",
});
const say = (barIndex: number, ...cuts: CutSpan[]) =>
  sayBarInEdition(findBar(readBarMap(score, findPerformedOrder(score), cuts), barIndex));

test.each([
  ["the upbeat", 0, [], "the 1st bar played"],
  ["a bar that is repeated", 1, [], "the 2nd and the 4th bars played"],
  ["the first ending", 2, [], "the 3rd bar played"],
  ["the last", 6, [], "the 8th bar played"],
  ["the same after a cut", 6, [{ from: at(4), to: at(6) }], "the 6th bar played"],
  ["a bar of the cut", 5, [{ from: at(4), to: at(6) }], "cut"],
  ["a bar with a cut in its middle counts once", 5, [{ from: at(5, 1), to: at(5, 2) }], "the 7th bar played"],
] as const)("%s", (_name, bar, cuts, expected) => expect(say(bar, ...cuts)).toBe(expected));

describe("ordinals", () => {
  test.each([
    [1, "1st"],
    [2, "2nd"],
    [3, "3rd"],
    [4, "4th"],
    [11, "11th"],
    [12, "12th"],
    [13, "13th"],
    [21, "21st"],
    [61, "61st"],
    [85, "85th"],
    [111, "111th"],
    [112, "112th"],
    [122, "122nd"],
  ])("%i", (number, text) =>
    expect(sayBarInEdition({ numbers: [number], of: 200 })).toBe(`the ${text} bar played`),
  );
});

test("a bar by its printed number", () => {
  expect(findBarByLabel(score, ` ${score.bars[4]?.label} `)).toBe(4);
  expect([findBarByLabel(score, "99"), findBarByLabel(score, "")]).toEqual([null, null]);
});
