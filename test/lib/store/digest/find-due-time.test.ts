import fc from "fast-check";
import { expect, test } from "vitest";
import { findDueTime } from "@/lib/store/digest/find-due-time";
import { minute } from "./quiet-desk";

const at = (minutes: number) => ({ at: minute(minutes), namesMe: false });
const named = (minutes: number) => ({ at: minute(minutes), namesMe: true });

test.each([
  ["one", [at(0)], null, 10],
  ["two", [at(0), at(7)], null, 17],
  ["in any order", [at(7), at(0)], null, 17],
  ["a long morning", [at(0), at(60), at(119)], null, 120],
  ["just before patience ends", [at(0), at(109)], null, 119],
  ["named", [named(0)], null, 2],
  ["named later", [at(0), named(5)], null, 7],
  ["named after it was quiet", [at(0), named(30)], null, 32],
  ["after a message", [at(0)], -60, 180],
  ["long after a message", [at(0)], -600, 10],
  ["named after a message", [named(0)], -10, 20],
  ["named long after a message", [named(0)], -100, 2],
])("%s", (_name, news, lastMessage, due) => {
  expect(findDueTime(news, lastMessage === null ? null : minute(lastMessage))).toEqual(minute(due));
});

test("no news have no time", () => {
  expect(() => findDueTime([], null)).toThrow(RangeError);
});

test("never sooner than the pause, never later than patience and pause allow", () => {
  const news = fc.array(fc.record({ minutes: fc.integer({ min: 0, max: 600 }), namesMe: fc.boolean() }), {
    minLength: 1,
  });
  fc.assert(
    fc.property(news, fc.option(fc.integer({ min: -600, max: 600 })), (all, last) => {
      const due = findDueTime(
        all.map(({ minutes, namesMe }) => ({ at: minute(minutes), namesMe })),
        last === null ? null : minute(last),
      );
      const first = Math.min(...all.map(({ minutes }) => minutes));
      expect(due >= minute(first + 2)).toBe(true);
      expect(due <= minute(Math.max(first + 120, (last ?? -10_000) + 240))).toBe(true);
      if (last !== null) expect(due >= minute(last + (all.some((one) => one.namesMe) ? 30 : 240))).toBe(true);
    }),
  );
});
