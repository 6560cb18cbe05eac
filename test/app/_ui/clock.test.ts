import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readClock, sayAgainstLimit } from "@/app/_ui/clock";
import { sayClock } from "@/lib/score/say-clock";

describe("clock time", () => {
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
