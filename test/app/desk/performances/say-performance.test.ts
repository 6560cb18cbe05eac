import { describe, expect, test } from "vitest";
import { readLog, readTypedClock } from "@/app/(desk)/_performances/read-log";
import {
  isUpcoming,
  sayAgainstPlan,
  sayDaysUntil,
  sayOccasion,
  sayTimes,
} from "@/app/(desk)/_performances/say-performance";

describe("a performance in words", () => {
  test.each([
    [
      { kind: "jury", limitSeconds: 780, startsAt: "10:40", place: "Kestrel Hall" },
      "jury, limit 13:00 · 10:40 · Kestrel Hall",
    ],
    [{ kind: "run-through", limitSeconds: null, startsAt: null, place: "" }, "run-through"],
  ] as const)("%j", (performance, words) => expect(sayOccasion(performance)).toBe(words));

  test.each([
    [735, 728, "0:07 over plan"],
    [720, 728, "0:08 under plan"],
    [728.4, 727.8, "as planned"],
  ])("%d s, planned %d s", (real, planned, words) => expect(sayAgainstPlan(real, planned)).toBe(words));

  test("played: the clock, against plan and limit", () =>
    expect(sayTimes({ plannedSeconds: 453, realSeconds: 532, limitSeconds: 540 })).toEqual({
      time: "8:52",
      against: ["1:19 over plan", "0:08 to spare"],
    }));

  test("to come: the plan, against the limit", () =>
    expect(sayTimes({ plannedSeconds: 438, realSeconds: null, limitSeconds: 430 })).toEqual({
      time: "7:18",
      against: ["planned", "0:08 over"],
    }));

  test.each([
    ["2026-03-01", null, true],
    ["2026-03-01", 500, false],
    ["2026-02-28", null, false],
  ])("on %s with the clock at %j, seen on the first of March", (on, realSeconds, is) =>
    expect(isUpcoming({ on, realSeconds }, "2026-03-01")).toBe(is),
  );

  test.each([
    ["2026-03-01", "today"],
    ["2026-03-02", "tomorrow"],
    ["2026-03-20", "in 19 days"],
  ])("%s from the first of March", (on, words) => expect(sayDaysUntil(on, "2026-03-01")).toBe(words));
});

describe("the form of the log", () => {
  const form = (entries: Record<string, string>) => {
    const data = new FormData();
    for (const [name, value] of Object.entries(entries)) data.set(name, value);
    return data;
  };
  const filled = {
    ...{ kind: "recital", name: "Spring recital", on: "2026-03-28", place: "", editionNumber: "2" },
    ...{ limit: "", real: "8:52", remarks: "", startsAt: "19:30", result: "passed" },
  };

  test("is read as the action takes it", () =>
    expect(readLog(form(filled))).toEqual({
      ok: true,
      value: {
        ...{ kind: "recital", name: "Spring recital", on: "2026-03-28", place: "", remarks: "" },
        ...{ limitSeconds: null, realSeconds: 532, editionNumber: 2, startsAt: "19:30", result: "passed" },
      },
    }));

  test("a stopwatch is finer than what is typed: the same second keeps it, another one does not", () => {
    const read = (kept: number) => {
      const result = readLog(form(filled), kept);
      return result.ok && result.value.realSeconds;
    };
    expect([read(531.62), read(540.1)]).toEqual([531.62, 532]);
  });

  test.each(["limit", "real"])("says which time cannot be read: %s", (field) =>
    expect(readLog(form({ ...filled, [field]: "soon" }))).toEqual({ ok: false, problem: field }),
  );

  test.each([
    ["", null],
    ["  ", null],
    ["9:00", 540],
    ["9:75", "wrong"],
  ])("a typed clock %j", (text, read) => expect(readTypedClock(text)).toBe(read));
});
