import { describe, expect, test } from "vitest";
import { findStanding, readDaySpan } from "@/lib/edition/find-standing";

const editions = [
  { number: 1, day: "2026-03-10" },
  { number: 2, day: "2026-05-14" },
  { number: 3, day: "2026-05-14" },
  { number: 4, day: "2026-08-01" },
];

describe("what stood when", () => {
  test.each([
    ["before anything was frozen", "2026-02", []],
    ["the month of the first", "2026-03", [1]],
    ["the day itself", "2026-03-10", [1]],
    ["the day before", "2026-03-09", []],
    ["a month in which nothing was frozen", "2026-04", [1]],
    ["a month with two", "2026-05", [1, 2, 3]],
    ["the day after them", "2026-05-15", [3]],
    ["today", "2026-11-26", [4]],
  ])("%s: %s", (_name, asked, expected) => {
    const days = readDaySpan(asked);
    expect(days && findStanding(editions.toReversed(), days)).toEqual(expected);
  });

  test.each(["", "May", "2026", "2026-13", "2026-00-01", "2026-02-29", "2026-05-1", "2026-05-14 "])(
    "“%s” is no day",
    (text) => expect(readDaySpan(text)).toBeNull(),
  );

  test("a leap day and a whole February", () => {
    expect(readDaySpan("2028-02-29")).toEqual({ from: "2028-02-29", to: "2028-02-29" });
    expect(readDaySpan("2028-02")).toEqual({ from: "2028-02-01", to: "2028-02-29" });
  });
});
