import { expect, test } from "vitest";
import { sayLocalDay, sayMoment } from "@/app/(desk)/pieces/[pieceId]/_components/say-moment";

const now = new Date("2026-11-26T10:00:00.000Z");

test.each([
  ["2026-11-26T09:05:00.000Z", "UTC", "09:05"],
  ["2026-11-24T14:05:00.000Z", "UTC", "Tue 14:05"],
  ["2026-11-12T14:05:00.000Z", "UTC", "Thu 12 Nov 14:05"],
  ["2025-11-12T14:05:00.000Z", "UTC", "12 Nov 2025 14:05"],
  ["2026-11-25T23:30:00.000Z", "Europe/Berlin", "00:30"],
  ["2026-11-26T00:30:00.000Z", "America/New_York", "Wed 19:30"],
  // Ahead of this clock: no weekday, which would be taken for the last one.
  ["2026-11-28T00:30:00.000Z", "UTC", "Sat 28 Nov 00:30"],
])("%s in %s is %s", (iso, zone, words) => {
  expect(sayMoment(iso, now, zone)).toBe(words);
});

test("a day by itself", () => {
  expect(sayLocalDay("2026-11-26T00:01:00.000Z", now, "UTC")).toBe("today");
  expect(sayLocalDay("2026-11-20T12:00:00.000Z", now, "UTC")).toBe("Fri");
  expect(sayLocalDay("2026-11-19T12:00:00.000Z", now, "UTC")).toBe("Thu 19 Nov");
});

test("no date is the caller's mistake", () => {
  expect(() => sayMoment("soon", now)).toThrow(RangeError);
});
