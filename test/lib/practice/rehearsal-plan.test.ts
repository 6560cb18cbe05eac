import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayAfter, daysBetween } from "@/lib/practice/days";
import { type PlanPassage, planRehearsals, type RehearsalPlan } from "@/lib/practice/rehearsal-plan";

const today = "2027-02-25";
const fresh = (key: string, need: number, rest: Partial<PlanPassage> = {}): PlanPassage => ({
  ...{ key, need: { num: need, den: 1 }, rungsLeft: 5, lastOn: null },
  ...rest,
});

/** "25: a5 b5 +10" for each day: what is practised how long, and what is left for running through. */
function write({ days }: RehearsalPlan): string[] {
  return days.map(({ on, sessions, runThroughMinutes }) =>
    [
      `${Number(on.slice(-2))}:`,
      ...sessions.map(({ key, minutes }) => `${key}${minutes}`),
      ...(runThroughMinutes > 0 ? [`+${runThroughMinutes}`] : []),
    ].join(" "),
  );
}

describe("a rehearsal plan", () => {
  test("takes the weakest first, touches all, and only runs through on the last day", () => {
    const passages = [fresh("a", 50), fresh("b", 80), fresh("c", 20)];
    const plan = planRehearsals(passages, { today, performanceOn: "2027-03-04", minutesADay: 12 });
    expect(write(plan)).toEqual([
      "25: b5 a5 +2",
      // c for the first time; b is due, and so is a, for which there is no room.
      "26: b5 c5 +2",
      "27: b5 a5 +2",
      "28: b5 a5 +2",
      // b has a rung left and two days for it.
      "1: a5 c5 +2",
      "2: b5 a5 +2",
      "3: +12",
    ]);
    expect(plan.leftOut).toEqual([]);
    expect(plan.evidence).toEqual({
      ...{ daysLeft: 7, practiceDays: 6, blockMinutes: 5, blocksADay: 2, openPassages: 3, rungsLeft: 15 },
    });
  });

  test("spreads the rungs that are left over the days that are left", () => {
    const on = (rungsLeft: number) =>
      planRehearsals([fresh("a", 9, { rungsLeft })], { today, performanceOn: "2027-03-14", minutesADay: 5 })
        .days.map(({ sessions }) => (sessions.length > 0 ? "a" : "."))
        .join("");
    // Sixteen days of practice and the last one; once all rungs had their visit, a week apart.
    expect([on(16), on(8), on(4), on(1)]).toEqual([
      "aaaaaaaaaaaaaaaa.",
      "a.a.a.a.a.a.a..a.",
      "a....a....a....a.",
      "a......a......a..",
    ]);
  });

  test("says why each is there", () => {
    const passages = [
      fresh("new", 10),
      fresh("due", 20, { rungsLeft: 4, lastOn: "2027-02-22" }),
      fresh("early", 30, { rungsLeft: 1, lastOn: "2027-02-24" }),
    ];
    const plan = planRehearsals(passages, { today, performanceOn: "2027-03-04", minutesADay: 15 });
    expect(plan.days[0]?.sessions).toEqual([
      { key: "early", minutes: 5, reason: { kind: "early", daysSince: 1, dueAfter: 6 } },
      { key: "due", minutes: 5, reason: { kind: "due", daysSince: 3, dueAfter: 2 } },
      { key: "new", minutes: 5, reason: { kind: "first" } },
    ]);
  });

  test("gives what is left of a day to its passages in turn, a quarter of an hour at most", () => {
    const passages = [fresh("a", 2), fresh("b", 1)];
    const on = (minutesADay: number) =>
      write(planRehearsals(passages, { today, performanceOn: "2027-02-27", minutesADay }))[0];
    expect([on(10), on(15), on(20), on(45)]).toEqual([
      "25: a5 b5",
      "25: a10 b5",
      "25: a10 b10",
      "25: a15 b15 +15",
    ]);
  });

  test("leaves out what there is no time for, the least needed, and says so", () => {
    const passages = [fresh("a", 1), fresh("b", 3), fresh("c", 2)];
    const plan = planRehearsals(passages, { today, performanceOn: "2027-02-27", minutesADay: 10 });
    expect(plan.leftOut).toEqual(["a"]);
    expect(planRehearsals(passages, { today, performanceOn: "2027-02-26", minutesADay: 30 }).leftOut).toEqual(
      ["b", "c", "a"],
    );
  });

  test("leaves what is at tempo to the run-throughs", () => {
    const plan = planRehearsals([fresh("a", 9, { rungsLeft: 0 })], {
      ...{ today, performanceOn: "2027-02-28", minutesADay: 20 },
    });
    expect(write(plan)).toEqual(["25: +20", "26: +20", "27: +20"]);
  });

  test("has nothing for a performance today or past, and refuses what is no day or no minutes", () => {
    const plan = (performanceOn: string, minutesADay = 30) =>
      planRehearsals([fresh("a", 1)], { today, performanceOn, minutesADay });
    expect(plan(today).days).toEqual([]);
    expect(plan("2027-02-01").days).toEqual([]);
    expect(plan("2027-03-01", 0).days.map(({ sessions }) => sessions)).toEqual([[], [], [], []]);
    expect(() => plan("soon")).toThrow(RangeError);
    expect(() => plan("2027-03-01", 7.5)).toThrow(RangeError);
    expect(() => plan("2027-03-01", -5)).toThrow(RangeError);
  });
});

describe("laws of rehearsal plans", () => {
  const passages = fc
    .array(
      fc.record({
        need: fc.record({ num: fc.integer({ min: 0, max: 400 }), den: fc.integer({ min: 1, max: 8 }) }),
        rungsLeft: fc.integer({ min: 0, max: 12 }),
        ago: fc.option(fc.integer({ min: 1, max: 30 })),
      }),
      { maxLength: 14 },
    )
    .map((all) =>
      all.map(({ need, rungsLeft, ago }, index): PlanPassage => {
        return { key: `p${index}`, need, rungsLeft, lastOn: ago === null ? null : dayAfter(today, -ago) };
      }),
    );
  const terms = fc.record({
    ahead: fc.integer({ min: -3, max: 40 }),
    minutesADay: fc.integer({ min: 0, max: 120 }),
  });

  const check = (judge: (plan: RehearsalPlan, all: PlanPassage[], minutesADay: number, on: string) => void) =>
    fc.assert(
      fc.property(passages, terms, (all, { ahead, minutesADay }) => {
        const performanceOn = dayAfter(today, ahead);
        judge(planRehearsals(all, { today, performanceOn, minutesADay }), all, minutesADay, performanceOn);
      }),
    );

  test("the minutes of a day are used and never exceeded, in whole minutes", () => {
    check(({ days }, _, minutesADay) => {
      for (const { sessions, runThroughMinutes } of days) {
        const minutes = sessions.map((session) => session.minutes);
        expect(minutes.every((one) => Number.isInteger(one) && one > 0)).toBe(true);
        expect(runThroughMinutes).toBeGreaterThanOrEqual(0);
        expect(minutes.reduce((sum, one) => sum + one, runThroughMinutes)).toBe(minutesADay);
      }
    });
  });

  test("every day from today to the one before the performance, none on it or after it, the last without passages", () => {
    check(({ days }, _, __, performanceOn) => {
      expect(days.map(({ on }) => on)).toEqual(
        Array.from({ length: Math.max(0, daysBetween(today, performanceOn)) }, (_day, index) =>
          dayAfter(today, index),
        ),
      );
      expect(days.map(({ isLast }) => isLast)).toEqual(days.map((_day, index) => index === days.length - 1));
      expect(days.at(-1)?.sessions ?? []).toEqual([]);
    });
  });

  test("every open passage appears when time allows; what does not is named, and is needed least", () => {
    check(({ days, leftOut, evidence }, all) => {
      const planned = new Set(days.flatMap(({ sessions }) => sessions.map(({ key }) => key)));
      const open = all.filter(({ rungsLeft }) => rungsLeft > 0);
      for (const { key, rungsLeft } of all) {
        if (rungsLeft === 0) expect(planned.has(key)).toBe(false);
        else expect(planned.has(key)).toBe(!leftOut.includes(key));
      }
      const blocks = evidence.practiceDays * evidence.blocksADay;
      expect(planned.size).toBe(Math.min(blocks, open.length));
    });
  });

  test("no passage twice on a day, and among those never practised the weakest come first", () => {
    check(({ days }, all) => {
      for (const { sessions } of days) {
        const keys = sessions.map(({ key }) => key);
        expect(new Set(keys).size).toBe(keys.length);
      }
      const need = (key: string) => {
        const { num, den } = all.find((passage) => passage.key === key)!.need;
        return num / den;
      };
      const firsts = days.map(({ sessions }) =>
        sessions.filter(({ reason }) => reason.kind === "first").map(({ key }) => need(key)),
      );
      const inTurn = firsts.flat();
      expect(inTurn).toEqual(inTurn.toSorted((a, b) => b - a));
    });
  });

  test("more minutes never leave more out", () => {
    fc.assert(
      fc.property(passages, terms, fc.integer({ min: 0, max: 60 }), (all, { ahead, minutesADay }, more) => {
        const performanceOn = dayAfter(today, ahead);
        const left = (minutes: number) =>
          planRehearsals(all, { today, performanceOn, minutesADay: minutes }).leftOut.length;
        expect(left(minutesADay + more)).toBeLessThanOrEqual(left(minutesADay));
      }),
    );
  });
});
