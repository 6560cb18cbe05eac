import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readClock, sayAgainstLimit, sayClock } from "@/app/_ui/clock";

describe("clock time", () => {
  test.each([
    [0, "0:00"],
    [7.4, "0:07"],
    [59.6, "1:00"],
    [728, "12:08"],
    [3600, "1:00:00"],
    [3785, "1:03:05"],
    [-26, "−0:26"],
    [-0.3, "0:00"],
  ])("%d s is %s", (seconds, words) => expect(sayClock(seconds)).toBe(words));

  test("refuses what is no time", () => expect(() => sayClock(Number.NaN)).toThrow(RangeError));

  test.each([
    ["12:08", 728],
    ["0:30", 30],
    ["1:02:30", 3750],
    ["12", 720],
    [" 9:00 ", 540],
    ["12:75", null],
    ["soon", null],
    ["", null],
  ])("reads %j", (text, seconds) => expect(readClock(text)).toBe(seconds));

  test("reads what it writes", () => {
    fc.assert(fc.property(fc.nat(359_999), (seconds) => readClock(sayClock(seconds)) === seconds));
  });

  test.each([
    [728, 720, "0:08 over"],
    [702, 720, "0:18 to spare"],
    [719.8, 720, "exactly on the limit"],
  ])("%d s against %d s", (running, limit, words) => expect(sayAgainstLimit(running, limit)).toBe(words));
});
