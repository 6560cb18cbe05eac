import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { PracticeRecord } from "@/lib/practice/practice-entry";
import { planLadder } from "@/lib/practice/tempo-ladder";
import { here, logOf } from "./log-of";

const passage = (perMinute: number, comfortablePace: number) => ({
  ...here,
  tempo: { beat: "1", perMinute },
  comfortablePace,
});
const rungsOf = (perMinute: number, comfortablePace: number) =>
  planLadder(passage(perMinute, comfortablePace), []).rungs.map((rung) => rung.perMinute);

describe("the rungs of a ladder", () => {
  test.each([
    // Each a twentieth faster, to the nearest whole number.
    [112, 0.75, [84, 88, 92, 97, 102, 107, 112]],
    [132, 0.9, [118, 124, 130, 132]],
    // Slow beats: a whole beat a minute is the least there is.
    [44, 0.9, [39, 41, 43, 44]],
    [12, 0.8, [9, 10, 11, 12]],
    // Comfortable as it is.
    [112, 1.4, [112]],
    [112, Number.POSITIVE_INFINITY, [112]],
  ])("to %i, comfortable at %f of it", (perMinute, pace, rungs) => {
    expect(rungsOf(perMinute, pace)).toEqual(rungs);
  });

  test("begin at half the tempo where no tempo helps, and never below a third", () => {
    expect(rungsOf(120, 0)[0]).toBe(60);
    expect(planLadder(passage(120, 0), []).start).toMatch(/half tempo/);
    expect(rungsOf(120, 0.1)[0]).toBe(40);
    expect(planLadder(passage(120, 0.1), []).start).toMatch(/a third/);
  });

  test("laws: whole, rising by 4 to 6 per cent (the last by no more), from comfort to exactly the tempo", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 400 }),
        fc.double({ min: 0, max: 1.5, noNaN: true }),
        (goal, pace) => {
          const { rungs } = planLadder(passage(goal, pace), []);
          expect(rungs.at(-1)).toEqual({ perMinute: goal, share: { num: 1, den: 1 } });
          for (const { perMinute, share } of rungs) {
            expect(Number.isInteger(perMinute)).toBe(true);
            expect(perMinute * share.den).toBe(goal * share.num);
          }
          for (const [index, { perMinute }] of rungs.entries()) {
            const next = rungs[index + 1]?.perMinute;
            if (next === undefined) continue;
            expect(next).toBeGreaterThan(perMinute);
            const isLast = index + 2 === rungs.length;
            if (perMinute < 50) expect(next - perMinute).toBeLessThanOrEqual(3);
            else {
              expect(100 * next).toBeLessThanOrEqual(106 * perMinute);
              if (!isLast) expect(100 * next).toBeGreaterThanOrEqual(104 * perMinute);
            }
          }
          const start = rungs[0]?.perMinute ?? 0;
          if (pace >= 1 / 3 && pace * goal >= 1) expect(start).toBeLessThanOrEqual(pace * goal + 1e-6);
        },
      ),
    );
  });
});

describe("the current rung", () => {
  // 84 88 92 97 102 107 112
  test.each([
    ["", 84, "Nothing is logged yet."],
    ["84", 88, "It held at 84."],
    ["84 88 92", 97, "It held at 92."],
    // One rung back, and up again.
    ["84 88 92-", 88, "It did not hold at 92: one rung back."],
    ["84 88 92- 88", 92, "It held at 88."],
    ["84-", 84, "It did not hold at 84: one rung back."],
    // Between two rungs the lower one counts.
    ["90", 92, "It held at 90."],
    // A slow practice takes nothing back, a try far above says nothing.
    ["84 88 92 60", 97, "It held at 60."],
    ["84 88 112-", 92, "It held at 88."],
    ["84 88 92x", 92, "It held at 88."],
    ["112", 112, "It held at performance tempo."],
    ["120", 112, "It held at performance tempo."],
    ["112 112-", 107, "It did not hold at 112: one rung back."],
  ])("after %j is %i", (log, perMinute, why) => {
    const ladder = planLadder(passage(112, 0.75), logOf(log));
    expect(ladder.rungs[ladder.current]?.perMinute).toBe(perMinute);
    expect(ladder.why).toBe(why);
  });

  test("is climbed once the tempo held and until it no longer does", () => {
    const isClimbed = (log: string) => planLadder(passage(112, 0.75), logOf(log)).isClimbed;
    expect(["107", "112", "112 80", "112 112-", "112 112- 107 112"].map(isClimbed)).toEqual([
      false,
      true,
      true,
      false,
      true,
    ]);
  });

  test("counts tempi in another beat for what they are, and entries only for the whole passage", () => {
    const inHalves = logOf("48").map((entry): PracticeRecord => {
      return { ...entry, tempo: { beat: "2", perMinute: 48, held: true } };
    });
    const at = (log: readonly PracticeRecord[]) => {
      const { rungs, current } = planLadder(passage(112, 0.75), log);
      return rungs[current]?.perMinute;
    };
    expect(at(inHalves)).toBe(97);
    expect(at(logOf("97", { fromBar: 8, toBar: 13 }))).toBe(102);
    expect(at(logOf("97", { fromBar: 10, toBar: 12 }))).toBe(84);
  });
});
