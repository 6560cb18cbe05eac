import { describe, expect, test } from "vitest";
import { chooseExpiry, lastDayOf, suggestLastDay } from "@/lib/store/readers/choose-expiry";
import { kindOf, valued } from "../duo";

const day = 24 * 60 * 60 * 1000;

describe("when a link ends", () => {
  const now = new Date("2026-03-01T22:00:00Z");
  test.each([
    ["1 day", "2026-03-02T22:00:00.000Z", "2026-03-02"],
    ["1 week", "2026-03-08T22:00:00.000Z", "2026-03-08"],
    // Midnight on the last time zone to reach it.
    ["2026-03-01", "2026-03-02T12:00:00.000Z", "2026-03-01"],
    ["2026-12-24", "2026-12-25T12:00:00.000Z", "2026-12-24"],
  ])("%s", (lasting, expiresAt, lastDay) => {
    const chosen = valued(chooseExpiry(now, lasting));
    expect([chosen.toISOString(), lastDayOf(chosen)]).toEqual([expiresAt, lastDay]);
  });

  test("never in the past, and within a year", () => {
    for (const lasting of ["2026-02-27", "2027-03-10"])
      expect(kindOf(chooseExpiry(now, lasting))).toBe("invalid-input");
    expect(suggestLastDay(now, null)).toBe("2026-03-31");
    expect(suggestLastDay(now, "2026-12-30")).toBe("2027-01-06");
    expect(valued(chooseExpiry(now, suggestLastDay(now, null))).getTime() - now.getTime()).toBeLessThan(
      32 * day,
    );
  });
});
