import { describe, expect, it } from "vitest";
import { checkCut } from "@/lib/cuts/check-cut";
import { findOverlap } from "@/lib/cuts/overlapping-cuts";
import { sayCutProblem } from "@/lib/cuts/say-cut-problem";
import type { CutSpan } from "@/lib/score/cut-span";
import type { Position } from "@/lib/score/position";
import { at, buildScore } from "../../builders/build-score";

function check(solo: string, from: Position, to: Position): string {
  const checked = checkCut(buildScore({ solo }), { from, to });
  return checked.ok
    ? "fine"
    : `${checked.problem.kind}${"what" in checked.problem ? ` ${checked.problem.what}` : ""}`;
}

const repeated = "R*2 |: R*4 :| R*2";
const endings = "R |: R | [1. R*2 :| [2. R*2 ] | R*2";
const jumping = "R | R $segno | R*2 | R $tocoda | R $ds | R $coda | R";

describe("checking a cut", () => {
  it.each<[string, string, Position, Position, string]>([
    ["bars of a plain piece", "R*8", at(1), at(4), "fine"],
    ["from beat to beat", "R*8", at(1, "1/2"), at(1, 3), "fine"],
    ["the beginning", "R*8", at(0), at(4), "fine"],
    ["the end", "R*8", at(4), at(7, 4), "fine"],
    ["nothing", "R*8", at(4), at(4), "cut-empty"],
    ["nothing, written in two ways", "R*8", at(3, 4), at(4), "cut-empty"],
    ["backwards", "R*8", at(4), at(3, 2), "cut-reversed"],
    ["behind the piece", "R*8", at(4), at(8), "cut-outside-piece"],
    ["behind a bar", "R*8", at(4, 5), at(6), "cut-outside-piece"],
    ["before the piece", "R*8", at(-1), at(6), "cut-outside-piece"],
    ["everything", "R*8", at(0), at(7, 4), "cut-takes-everything"],
    ["before a repeated section", repeated, at(0), at(2), "fine"],
    ["inside it", repeated, at(3), at(5), "fine"],
    ["inside it from its first beat on, but for the sign", repeated, at(2, 1), at(5, 3), "fine"],
    ["all of it", repeated, at(2), at(6), "fine"],
    ["all of it and more", repeated, at(1), at(7), "fine"],
    ["its start", repeated, at(1), at(4), "cut-splits-repeat repeat"],
    ["its first bar", repeated, at(2), at(3), "cut-splits-repeat repeat"],
    ["its end", repeated, at(4), at(7), "cut-splits-repeat repeat"],
    ["its last bar", repeated, at(5), at(6), "cut-splits-repeat repeat"],
    ["the beginning of a piece that is repeated from the start", "R*4 :| R", at(0), at(2), "fine"],
    ["the end of such a section", "R*4 :| R", at(2), at(4, 2), "cut-splits-repeat repeat"],
    ["the whole of such a section", "R*4 :| R", at(0), at(4), "fine"],
    ["between the signs of an ending", endings, at(2, 1), at(3, 3), "fine"],
    ["a first ending", endings, at(2), at(4), "cut-splits-repeat ending"],
    ["a second ending", endings, at(4), at(6), "cut-splits-repeat repeat"],
    ["a repeat with its endings", endings, at(1), at(6), "fine"],
    ["before a segno", jumping, at(0), at(1), "fine"],
    ["between the jump signs", jumping, at(2), at(4), "fine"],
    ["a segno", jumping, at(1), at(2), "cut-splits-repeat jump"],
    ["D.S. and coda without the segno", jumping, at(4), at(7), "cut-splits-repeat jump"],
    ["all jump signs", jumping, at(1), at(7), "fine"],
    ["D.C.", "R*3 | R $fine | R*2 | R $dc | R", at(5), at(7), "cut-splits-repeat jump"],
    ["D.C. with its Fine", "R*3 | R $fine | R*2 | R $dc | R", at(3), at(7), "cut-splits-repeat jump"],
  ])("%s", (_name, solo, from, to, expected) => {
    expect(check(solo, from, to)).toBe(expected);
  });

  it.each<[string, Position, Position, RegExp]>([
    [repeated, at(4), at(9), /has 8 bars/],
    [repeated, at(4), at(4), /same place in bar 5/],
    [repeated, at(4), at(1), /ends in bar 2, before it begins in bar 5/],
    [repeated, at(1), at(4), /repeat signs of bars 3 to 6/],
    [repeated, at(0), at(7, 4), /all 8 bars/],
  ])("says what is wrong (%#)", (solo, from, to, sentence) => {
    const checked = checkCut(buildScore({ solo }), { from, to });
    expect(checked.ok ? "fine" : sayCutProblem(checked.problem)).toMatch(sentence);
  });
});

describe("overlapping cuts", () => {
  const cut = (from: Position, to: Position): CutSpan => ({ from, to });
  const agreed = [cut(at(2), at(4)), cut(at(8, 2), at(10))];

  it.each<[string, CutSpan, number | null]>([
    ["before", cut(at(0), at(2)), null],
    ["between", cut(at(4), at(8, 2)), null],
    ["into the first", cut(at(1), at(2, 1)), 0],
    ["out of the second", cut(at(9), at(20)), 1],
    ["inside", cut(at(2, 1), at(2, 2)), 0],
    ["over both", cut(at(0), at(20)), 0],
    ["the same", cut(at(8, 2), at(10)), 1],
    ["empty", cut(at(3), at(3)), null],
  ])("%s", (_name, one, index) => {
    expect(findOverlap(agreed, one)).toBe(index === null ? null : agreed[index]);
  });
});
