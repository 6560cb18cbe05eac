import { expect, it } from "vitest";
import { wasPlayed } from "@/lib/calendar/was-played";

it.each([
  ["2026-11-25", null, true],
  ["2026-11-26", null, false],
  ["2026-11-27", null, false],
  ["2026-11-26", 461, true],
])("a performance on %s, by the clock %s, seen on 26 November: %s", (on, realSeconds, expected) => {
  expect(wasPlayed({ on, realSeconds }, "2026-11-26")).toBe(expected);
});
