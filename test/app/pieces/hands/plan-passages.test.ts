import { describe, expect, test } from "vitest";
import { toPlanPassages } from "@/app/(desk)/pieces/[pieceId]/hands/_practice/plan-passages";
import {
  sayDaysLeft,
  sayPlannedDay,
  sayReason,
  sayRunThrough,
} from "@/app/(desk)/pieces/[pieceId]/hands/_practice/say-plan";
import type { PracticePassage } from "@/lib/practice/practice-passage";
import { quarters } from "@/lib/score/quarters";
import { logOf } from "@/test/lib/practice/log-of";

const passage = (fromBar: number, comfortablePace: number): PracticePassage => ({
  ...{ fromBar, toBar: fromBar + 3, label: `bars ${fromBar + 1}–${fromBar + 4}`, why: "", comfortablePace },
  end: { barIndex: fromBar + 3, offset: quarters(4) },
  tempo: { beat: "1", perMinute: 112 },
  metre: { groups: [{ beats: [4], beatType: 4 }], symbol: null },
  difficulty: 60,
  weight: { factor: { num: 3, den: 2 }, reasons: [] },
});

describe("passages as the plan sees them", () => {
  // 84 88 92 97 102 107 112
  test.each([
    ["", 7, null],
    ["84 88", 5, "2027-03-01"],
    ["84 88-", 7, "2027-03-01"],
    ["112", 0, "2027-03-01"],
    ["112 112-", 2, "2027-03-01"],
    ["84x", 7, null],
  ])("after %j: %i rungs left, practised last on %s", (log, rungsLeft, lastOn) => {
    expect(toPlanPassages([passage(10, 0.75)], logOf(log))).toEqual([
      { key: "10-13", need: { num: 90, den: 1 }, rungsLeft, lastOn },
    ]);
  });

  test("what is comfortable at tempo still wants to be played once", () => {
    expect(toPlanPassages([passage(10, 2)], []).map(({ rungsLeft }) => rungsLeft)).toEqual([1]);
  });
});

describe("the plan in words", () => {
  test.each([
    ["2027-02-25", "Today"],
    ["2027-02-26", "Tomorrow"],
    ["2027-02-28", "Sun 28 Feb"],
  ])("%s is %s", (on, words) => {
    expect(sayPlannedDay(on, "2027-02-25")).toBe(words);
  });

  test.each([
    ["2027-02-24", "that day is over"],
    ["2027-02-25", "that is today"],
    ["2027-02-26", "that is tomorrow"],
    ["2027-03-09", "12 days until then"],
  ])("%s: %s", (on, words) => {
    expect(sayDaysLeft(on, "2027-02-25")).toBe(words);
  });

  test("why, and what is run through", () => {
    expect(sayReason({ kind: "first" })).toBe("for the first time");
    expect(sayReason({ kind: "due", daysSince: 1, dueAfter: 1 })).toBe("after 1 day");
    expect(sayReason({ kind: "early", daysSince: 3, dueAfter: 6 })).toBe("after 3 days");
    const day = { on: "2027-02-25", sessions: [], isLast: false };
    expect(sayRunThrough({ ...day, runThroughMinutes: 0 })).toBeNull();
    expect(sayRunThrough({ ...day, runThroughMinutes: 10 })).toBe("Run through");
    expect(sayRunThrough({ ...day, runThroughMinutes: 10, isLast: true })).toBe("Run-throughs only");
  });
});
