import { describe, expect, test } from "vitest";
import { type EntryTimes, sumProgramme } from "@/lib/edition/sum-programme";

const planned = (seconds: number, gapSeconds = 0): EntryTimes => ({
  ...{ gapSeconds, realSeconds: null },
  expected: { seconds, low: seconds * 0.9, high: seconds * 1.2 },
});
const played = (realSeconds: number, gapSeconds = 0): EntryTimes => ({
  ...planned(1, gapSeconds),
  realSeconds,
});
const unknown: EntryTimes = { gapSeconds: 20, expected: null, realSeconds: null };

describe("a programme on one clock", () => {
  test.each([
    ["nothing", [], false, { seconds: 0, gapSeconds: 0, realSeconds: null }],
    [
      "gaps between count, before the first they do not",
      [planned(100, 60), planned(200, 30)],
      false,
      { seconds: 330, gapSeconds: 30 },
    ],
    [
      "a clock that stops between",
      [planned(100, 60), planned(200, 30)],
      true,
      { seconds: 300, gapSeconds: 0 },
    ],
    [
      "what was played counts by the clock",
      [played(110), planned(200)],
      false,
      { seconds: 310, low: 290, high: 350, realSeconds: null },
    ],
    [
      "all played: no range any more",
      [played(110), played(205, 15)],
      false,
      { seconds: 330, low: 330, high: 330, realSeconds: 330 },
    ],
    [
      "what nobody here knows is in no sum, its gap is",
      [planned(100), unknown],
      false,
      { seconds: 120, unknown: 1 },
    ],
  ] as const)("%s", (_what, entries, stops, sum) => expect(sumProgramme(entries, stops)).toMatchObject(sum));

  test("slow in one piece is slow in all: ranges add up end to end", () => {
    const { low, high } = sumProgramme([planned(100), planned(200)], false);
    expect([low, high]).toEqual([270, 360]);
  });
});
