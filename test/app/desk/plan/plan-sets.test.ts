import { describe, expect, test } from "vitest";
import { gradeRuns, listSets, lookAt } from "@/app/(desk)/pieces/[pieceId]/plan/_components/plan-sets";
import { candidate, planOf } from "./a-plan";

const ten = candidate(10, 20);
const touch = candidate(40, 55, "needs-a-touch");
const small = candidate(70, 74);

describe("the sets of the slider", () => {
  test("run from everything to as short as it gets, with what each saves and its worst join", () => {
    const sets = listSets(planOf([touch, ten], [[], [1], [0, 1]], { best: [1] }), 120);
    expect(sets.steps.map(({ runs, saves, grade }) => ({ runs, saves, grade }))).toEqual([
      { runs: 120, saves: 0, grade: null },
      { runs: 110, saves: 10, grade: "clean" },
      { runs: 95, saves: 25, grade: "needs-a-touch" },
    ]);
    expect(sets.steps[2]?.cuts).toEqual([ten, touch]);
    expect(sets.bestStep).toBe(1);
  });

  test("begin with everything also where a cut costs nothing", () => {
    expect(listSets(planOf([ten], [[0]]), 120).steps.map(({ runs }) => runs)).toEqual([120, 110]);
  });

  test("of many within a second the cheapest stands for all, but the best and the shortest stay", () => {
    const near = [10, 10.1, 10.2, 10.3].map((to, index) => ({
      ...candidate(0, 5),
      gaps: [{ from: 0, to }],
      name: `${index}`,
    }));
    const sets = listSets(planOf(near, [[], [0], [1], [2], [3]], { best: [2] }), 120);
    expect(sets.steps.map(({ cuts }) => cuts[0]?.name)).toEqual([undefined, "0", "2", "3"]);
    expect(sets.bestStep).toBe(2);
  });

  test("without a limit none is the best, and others are not told", () => {
    const sets = listSets(planOf([ten], [[], [0]], { best: [], others: [[0]], limit: null }), 120);
    expect(sets).toMatchObject({ bestStep: null, others: [] });
  });
});

describe("the set that is looked at", () => {
  const sets = listSets(
    planOf([ten, touch, small], [[], [2], [0], [0, 1]], { best: [0], others: [[1]] }),
    120,
  );
  const unmet = { ...sets, bestStep: null };

  test.each([
    ["the best at first", sets, { kind: "best" }, true, 2],
    ["everything without a limit", unmet, { kind: "best" }, false, 0],
    ["the shortest where nothing fits", unmet, { kind: "best" }, true, 3],
    ["the first that saves as much", sets, { kind: "length", saves: 4 }, true, 1],
    ["the next where none saves exactly that", sets, { kind: "length", saves: 7 }, true, 2],
    ["the shortest for more than there is", sets, { kind: "length", saves: 900 }, true, 3],
    ["the best for another set that is not there", sets, { kind: "other", index: 7 }, true, 2],
  ] as const)("is %s", (_, from, choice, hasLimit, step) => {
    expect(lookAt(from, choice, hasLimit)).toMatchObject({
      step,
      isBest: step === from.bestStep,
      other: null,
    });
  });

  test("another set puts the slider where sets are as short", () => {
    expect(lookAt(sets, { kind: "other", index: 0 }, true)).toMatchObject({
      step: 3,
      isBest: false,
      other: 0,
      set: { saves: 15, cuts: [touch] },
    });
  });

  test("every step can be reached and is found again by what it saves", () => {
    sets.steps.forEach(({ saves }, step) => {
      expect(lookAt(sets, { kind: "length", saves: Number(saves.toFixed(3)) }, true).step).toBe(step);
    });
  });
});

test("neighbouring steps with the same worst join are one run", () => {
  expect(gradeRuns([{ grade: null }, { grade: "clean" }, { grade: "clean" }, { grade: "rough" }])).toEqual([
    { grade: null, first: 0, last: 0 },
    { grade: "clean", first: 1, last: 2 },
    { grade: "rough", first: 3, last: 3 },
  ]);
});
