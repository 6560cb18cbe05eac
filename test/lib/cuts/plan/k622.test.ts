import { describe, expect, it } from "vitest";
import { checkRestNeeds } from "@/lib/breath/check-rest-needs";
import { findRestsUnderCuts } from "@/lib/breath/find-rests";
import type { CutCandidate } from "@/lib/cuts/plan/cut-candidate";
import { planCuts } from "@/lib/cuts/plan/plan-cuts";
import type { RestNeed } from "@/lib/edition/rest-need";
import { sayClock } from "@/lib/score/say-clock";
import { readTempoMap } from "@/lib/score/tempo-map";
import { at, buildScore } from "../../../builders/build-score";

/*
 * The first movement of Mozart's K. 622 by bars, metre and tempo alone: 359 bars of 4/4 with ritornelli in bars 1–56,
 * 154–171, 227–250 and 343–359, at 120 quarters a minute. Bar numbers as published for the movement, the tempo common
 * practice; durations are arithmetic: bars × 4 × 60 ÷ 120. What is played in the bars does not matter here.
 */
const played = (bars: number) => Array.from({ length: bars }, () => "c5:w").join(" | ");
const score = buildScore({
  tempo: 120,
  solo: ["R*56", played(97), "R*18", played(55), "R*24", played(92), "R*17"].join(" | "),
  piano: Array.from({ length: 359 }, () => "c3:w").join(" | "),
});
const map = readTempoMap(score);

/** Printed bar numbers, both left out. */
const leaveOutBars = (first: number, last: number, cost: number): CutCandidate => {
  return { from: at(first - 1), to: last < 359 ? at(last) : at(358, 4), cost, reasons: [] };
};

const lip = (first: number, last: number, seconds: number): RestNeed => {
  const span = leaveOutBars(first, last, 0);
  return { id: `${first}`, from: span.from, to: span.to, needs: { seconds }, why: "lip", releasedBy: null };
};

describe("a concerto movement by bars, metre and tempo", () => {
  it("has the published ritornelli as rests", () => {
    const rests = findRestsUnderCuts(score, map, [], 2);
    expect(rests.map(({ bars, seconds }) => [bars.before, sayClock(seconds.before)])).toEqual([
      [56, "1:52"],
      [18, "0:36"],
      [24, "0:48"],
      [17, "0:34"],
    ]);
  });

  it("runs 11:58, and 1:44 less without bars 1–52", () => {
    const plan = planCuts(score, map, [leaveOutBars(1, 52, 1)], { limitSeconds: 615 });
    expect(sayClock(plan.wholeSeconds)).toBe("11:58");
    expect(sayClock(plan.best!.savedSeconds)).toBe("1:44");
    expect(sayClock(plan.best!.runsSeconds)).toBe("10:14");
  });

  it("keeps bars 154, 227 and 343 whole: they belong to the ritornello that begins with them", () => {
    const cuts = [leaveOutBars(154, 171, 1), leaveOutBars(227, 250, 1), leaveOutBars(343, 359, 1)];
    const plan = planCuts(score, map, cuts, { limitSeconds: 600 });
    expect(plan.best?.cuts.map(({ savedSeconds }) => savedSeconds)).toEqual([36, 48, 34]);
  });

  it("meets a limit of 10:00 with the rest that is needed in each ritornello", () => {
    const cuts = [
      leaveOutBars(1, 48, 2),
      leaveOutBars(157, 168, 1),
      leaveOutBars(157, 164, 1),
      leaveOutBars(231, 246, 3),
    ];
    const needs = [lip(1, 56, 8), lip(154, 171, 20), lip(227, 250, 16)];
    const plan = planCuts(score, map, cuts, { limitSeconds: 610, rests: needs });
    expect(plan.best?.cuts.map(({ index }) => index)).toEqual([0, 2]);
    const checked = checkRestNeeds(
      score,
      map,
      plan.best!.cuts.map(({ candidate }) => candidate),
      needs,
    );
    expect(checked.map(({ verdict, seconds }) => [verdict, seconds.before, seconds.after])).toEqual([
      ["kept", 112, 16],
      ["kept", 36, 20],
      ["kept", 48, 48],
    ]);
  });
});
