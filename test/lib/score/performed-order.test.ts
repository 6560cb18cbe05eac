import { describe, expect, it } from "vitest";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { quartersAsNumber } from "@/lib/score/quarters";
import { buildScore } from "../../builders/build-score";

/** The printed labels of the bars as they sound. */
const played = (solo: string): string => {
  const score = buildScore({ metre: "1/4", solo });
  return findPerformedOrder(score)
    .bars.map(({ barIndex }) => score.bars[barIndex]?.label)
    .join(" ");
};

describe("the performed order", () => {
  it.each([
    ["no signs", "c4 | d4 | e4", "1 2 3"],
    ["a repeat from the beginning", "c4 | d4 :| e4", "1 2 1 2 3"],
    ["a repeat with both signs", "c4 |: d4 | e4 :| f4", "1 2 3 2 3 4"],
    ["a repeat played three times", "c4 |: d4 :|x3 e4", "1 2 2 2 3"],
    ["a repeat without start goes back to the last end", "c4 :| d4 :| e4", "1 1 2 2 3"],
    ["a start without end is nothing", "c4 |: d4 | e4", "1 2 3"],
    ["an end and a start at one bar line", "|: c4 :|: d4 :| e4", "1 1 2 2 3"],
    ["two endings", "c4 | [1. d4 :| [2. e4 ] | f4", "1 2 1 3 4"],
    ["two endings of two bars", "|: c4 | [1. d4 | e4 :| [2. f4 | g4 ] | a4", "1 2 3 1 4 5 6"],
    ["an ending for two rounds", "c4 | [1,2. d4 :| [3. e4 ] | f4", "1 2 1 2 1 3 4"],
    ["a first ending alone: the second round skips it", "c4 | [1. d4 :| e4", "1 2 1 3"],
    ["a repeat sign in the last ending too", "c4 | [1. d4 :| [2. e4 :| f4", "1 2 1 3 4"],
    ["after endings a repeat goes back to their end", "c4 | [1. d4 :| [2. e4 ] | f4 :| g4", "1 2 1 3 4 4 5"],
    ["a start inside a repeated section begins a new one", "|: c4 |: d4 :| e4 :| f4", "1 2 2 3 3 4"],
    ["D.C. al Fine", "c4 | d4 $fine | e4 $dc", "1 2 3 1 2"],
    ["D.C. without repeats", "c4 :| d4 $fine | e4 $dc", "1 1 2 3 1 2"],
    ["D.C. takes the last ending", "c4 | [1. d4 :| [2. e4 ] | f4 $dc", "1 2 1 3 4 1 3 4"],
    ["D.S. al Coda", "c4 | d4 $segno | e4 $tocoda | f4 $ds | g4 $coda", "1 2 3 4 2 3 5"],
    ["a repeat in the coda is played: it was not yet", "c4 $tocoda | d4 $dc |: e4 $coda :|", "1 2 1 3 3"],
    ["the repeat before the jump", "c4 |: d4 $dc :| ", "1 2 2 1 2"],
    ["Fine at the first time is passed", "c4 $fine | d4 $dc", "1 2 1"],
  ])("%s", (_name, text, expected) => {
    expect(played(text)).toBe(expected);
  });

  it("tells passes and performed time", () => {
    const { bars, length } = findPerformedOrder(buildScore({ metre: "3/4", solo: "c4:h. :| d4:h." }));
    expect(bars.map(({ barIndex, pass, start }) => [barIndex, pass, quartersAsNumber(start)])).toEqual([
      [0, 1, 0],
      [0, 2, 3],
      [1, 1, 6],
    ]);
    expect(quartersAsNumber(length)).toBe(9);
  });

  it.each([
    ["c4 | d4 $ds", "jump-without-segno", "2"],
    ["c4 $tocoda | d4 $dc", "jump-without-coda", "1"],
    ["c4 | [1. d4 ] | [2. e4 ] | f4", "endings-without-repeat", "2"],
    ["c4 | [1. d4 :| [3. e4 ] | f4", "endings-without-repeat", "2"],
    ["c4 :|x99", "too-many-repeats", "1"],
  ])("%s gives the notice %s at bar %s", (solo, kind, barLabel) => {
    const { notices } = findPerformedOrder(buildScore({ metre: "1/4", solo }));
    expect(notices).toMatchObject([{ kind, barLabel }]);
  });

  it("plays the bars of endings that no repeat serves in printed order", () => {
    expect(played("c4 | [1. d4 ] | [2. e4 ] | f4")).toBe("1 2 3 4");
  });

  it("ends, whatever the signs say", () => {
    const solo = Array.from({ length: 400 }, () => "|: c4 $dc :|x32").join(" ");
    const { bars, notices } = findPerformedOrder(buildScore({ metre: "1/4", solo }));
    expect(bars.length).toBeLessThanOrEqual(50_000);
    expect(notices).toMatchObject([{ kind: "performed-order-too-long" }]);
  });
});
