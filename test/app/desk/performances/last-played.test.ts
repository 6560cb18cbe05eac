import { describe, expect, test } from "vitest";
import { findLastPlayed, sayLastPlayed, sayNewerEdition } from "@/app/(desk)/_performances/last-played";

const played = (on: string, change = {}) => ({
  ...{ pieceId: "p", on, startsAt: null, realSeconds: 500, editionNumber: 3, kind: "jury" as const },
  ...{ isRemoved: false, ...change },
});
const today = "2026-03-01";

describe("the last time a piece was played", () => {
  test.each([
    ["the latest of several, in any order", [played("2026-01-17"), played("2026-02-14")], "2026-02-14"],
    [
      "not what lies ahead",
      [played("2026-02-14"), played("2026-03-20", { realSeconds: null })],
      "2026-02-14",
    ],
    [
      "not what was taken off",
      [played("2026-01-17"), played("2026-02-14", { isRemoved: true })],
      "2026-01-17",
    ],
    [
      "also without a time by the clock, once the day is over",
      [played("2026-02-28", { realSeconds: null })],
      "2026-02-28",
    ],
    ["today, once there is a time", [played("2026-02-14"), played(today)], today],
    ["not today while it is ahead", [played(today, { realSeconds: null })], undefined],
    ["nothing", [], undefined],
  ])("%s", (_what, performances, on) => expect(findLastPlayed(performances, today)?.on).toBe(on));

  test("of two on a day the later", () => {
    const day = [
      played("2026-02-14", { startsAt: "19:30", editionNumber: 4 }),
      played("2026-02-14", { startsAt: "10:40" }),
    ];
    expect(findLastPlayed(day, today)?.editionNumber).toBe(4);
  });

  test.each([
    [played("2026-02-14"), "last played as № 3 on Sat 14 Feb"],
    [played("2025-11-28"), "last played as № 3 on 28 Nov 2025"],
    [played("2026-02-14", { kind: "run-through" }), "last played as № 3 on Sat 14 Feb, a run-through"],
  ])("in words", (last, words) => expect(sayLastPlayed(last, new Date("2026-03-01T12:00:00Z"))).toBe(words));
});

test.each([
  [3, 4, "№ 3 is planned; № 4 was frozen since."],
  [4, 4, null],
  [1, null, null],
])("№ %d planned, № %j the newest", (planned, last, words) => {
  expect(sayNewerEdition(planned, last)).toBe(words);
});
