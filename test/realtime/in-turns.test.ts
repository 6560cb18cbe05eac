import { expect, test } from "vitest";
import { inTurns } from "@/realtime/in-turns";

test("meets everybody once, in order, and lets others have their turn in between", async () => {
  const met: (number | "other")[] = [];
  const other = () => met.push("other");
  setImmediate(other);
  await inTurns([1, 2, 3, 4, 5], (thing) => met.push(thing), 2);
  expect(met.filter((one) => one !== "other")).toEqual([1, 2, 3, 4, 5]);
  expect(met.indexOf("other")).toBe(2);
});

test("does not meet who comes while it goes on", async () => {
  const things = new Set([1, 2, 3]);
  const met: number[] = [];
  await inTurns(
    things,
    (thing) => {
      met.push(thing);
      things.add(thing + 10);
    },
    1,
  );
  expect(met).toEqual([1, 2, 3]);
});
