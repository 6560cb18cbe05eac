import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pageCost } from "@/lib/engrave/pages/page-cost";
import { isTurned, type Paging, singlePages } from "@/lib/engrave/pages/paging";
import {
  type BreakPlan,
  type BreakProblem,
  type PlannedSystem,
  planBreaks,
} from "@/lib/engrave/pages/plan-breaks";

const room = { firstTop: 200, top: 40, bottom: 800, gap: 10 };

/** Systems as they are, of these heights; `turns` by the system that begins the next page. */
function ofSystems(
  heights: readonly number[],
  turns: readonly number[] = [],
  more: Partial<BreakProblem> = {},
): BreakProblem {
  return {
    unitCount: heights.length,
    choicesFrom: (unit) => [{ end: unit + 1, height: heights[unit] ?? 0, cost: 0 }],
    room,
    paging: singlePages,
    turnCost: (unit) => turns[unit] ?? 0,
    pins: new Set(),
    ...more,
  };
}

const counts = ({ pages }: BreakPlan) => pages.map((page) => page.length);

/** What a plan costs, added up anew; null when it breaks a rule. */
function priceOf(problem: BreakProblem, pages: readonly (readonly PlannedSystem[])[]): number | null {
  let cost = 0;
  for (const [pageIndex, page] of pages.entries()) {
    const top = pageIndex === 0 ? problem.room.firstTop : problem.room.top;
    let used = -problem.room.gap;
    for (const { start, end } of page) {
      const choice = problem.choicesFrom(start).find((each) => each.end === end);
      if (!choice) return null;
      used += choice.height + problem.room.gap;
      cost += choice.cost;
    }
    const height = problem.room.bottom - top;
    if (used > height && page.length > 1) return null;
    const isLast = pageIndex === pages.length - 1;
    cost += pageCost(used / height, isLast);
    const next = pages[pageIndex + 1]?.[0]?.start;
    if (next !== undefined && isTurned(pageIndex, problem.paging)) cost += problem.turnCost(next);
  }
  const pageStarts = new Set(pages.map((page) => page[0]?.start));
  return [...problem.pins].every((pin) => pageStarts.has(pin)) ? cost : null;
}

/** The least cost of all ways to make systems, and pages of them. */
function tryAll(problem: BreakProblem): number {
  let least = Number.POSITIVE_INFINITY;
  const go = (start: number, pages: readonly (readonly PlannedSystem[])[]): void => {
    if (start === problem.unitCount) {
      least = Math.min(least, priceOf(problem, pages) ?? Number.POSITIVE_INFINITY);
      return;
    }
    for (const { end } of problem.choicesFrom(start)) {
      const system = { start, end };
      const last = pages.at(-1);
      go(end, [...pages, [system]]);
      if (last) go(end, [...pages.slice(0, -1), [...last, system]]);
    }
  };
  go(0, []);
  return least;
}

const pagings: readonly Paging[] = [
  singlePages,
  { sides: "double", firstPage: "right" },
  { sides: "double", firstPage: "left" },
];
const turnCosts = fc.array(fc.constantFrom(0, 3, 10, 55, 100, 200), { minLength: 12, maxLength: 12 });

describe("planBreaks", () => {
  it("leaves no system alone on the last page when nothing else matters", () => {
    expect(counts(planBreaks(ofSystems(Array.from({ length: 8 }, () => 170))))).toEqual([3, 3, 2]);
    expect(counts(planBreaks(ofSystems(Array.from({ length: 7 }, () => 180))))).toEqual([3, 4]);
  });

  it("ends a page early where a hand is free", () => {
    const heights = Array.from({ length: 9 }, () => 170);
    expect(counts(planBreaks(ofSystems(heights, [0, 100, 0, 100, 100, 0, 100, 100, 100])))).toEqual([
      2, 3, 4,
    ]);
  });

  it("looks at the turns of right-hand pages only in a book", () => {
    const heights = Array.from({ length: 9 }, () => 170);
    const turns = [0, 100, 100, 0, 100, 0, 100, 100, 100];
    const right = planBreaks(ofSystems(heights, turns, { paging: { sides: "double", firstPage: "right" } }));
    expect(counts(right)).toEqual([3, 4, 2]);
    const left = planBreaks(ofSystems(heights, turns, { paging: { sides: "double", firstPage: "left" } }));
    // Page 1 now faces page 2: what is turned is page 2, and the place to end it is after five systems.
    expect(counts(left)).toEqual([2, 3, 4]);
  });

  it("keeps a pinned break whatever it costs", () => {
    const plan = planBreaks(ofSystems([100, 100, 100, 100], [0, 1000, 0, 0], { pins: new Set([1]) }));
    expect(counts(plan)).toEqual([1, 3]);
    expect(plan.cost).toBeGreaterThan(1000);
  });

  it("gives a system that is higher than a page a page of its own", () => {
    expect(counts(planBreaks(ofSystems([900, 100])))).toEqual([1, 1]);
    expect(planBreaks(ofSystems([])).pages).toEqual([]);
  });

  it("says when no breaks are possible", () => {
    expect(() => planBreaks(ofSystems([100, 100], [], { choicesFrom: () => [] }))).toThrow(RangeError);
  });

  it("equals every way tried, over systems as they are", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 60, max: 500 }), { minLength: 1, maxLength: 9 }),
        turnCosts,
        fc.constantFrom(...pagings),
        fc.uniqueArray(fc.integer({ min: 1, max: 8 }), { maxLength: 2 }),
        (heights, turns, paging, pinned) => {
          const pins = new Set(pinned.filter((pin) => pin < heights.length));
          const problem = ofSystems(heights, turns, { paging, pins });
          const plan = planBreaks(problem);
          expect(plan.cost).toBeCloseTo(tryAll(problem), 6);
          expect(priceOf(problem, plan.pages)).toBeCloseTo(plan.cost, 6);
        },
      ),
      { numRuns: 300 },
    );
  });

  it("equals every way tried, when lines are chosen too", () => {
    const bar = fc.record({
      width: fc.integer({ min: 20, max: 70 }),
      height: fc.integer({ min: 90, max: 330 }),
    });
    fc.assert(
      fc.property(
        fc.array(bar, { minLength: 1, maxLength: 8 }),
        turnCosts,
        fc.constantFrom(...pagings),
        fc.option(fc.integer({ min: 1, max: 7 })),
        (bars, turns, paging, pin) => {
          const choicesFrom: BreakProblem["choicesFrom"] = (start) =>
            bars.slice(start, start + 4).flatMap((_, place, from) => {
              const inside = from.slice(0, place + 1);
              const width = inside.reduce((sum, each) => sum + each.width, 0);
              const height = Math.max(...inside.map((each) => each.height));
              return place > 0 && width > 110
                ? []
                : [{ end: start + place + 1, height, cost: Math.abs(100 - width) / 10 }];
            });
          const pins = new Set(pin !== null && pin < bars.length ? [pin] : []);
          const problem = {
            ...ofSystems(
              bars.map(({ height }) => height),
              turns,
            ),
            choicesFrom,
            paging,
            pins,
          };
          const plan = planBreaks(problem);
          expect(plan.cost).toBeCloseTo(tryAll(problem), 6);
          expect(priceOf(problem, plan.pages)).toBeCloseTo(plan.cost, 6);
        },
      ),
      { numRuns: 300 },
    );
  });
});
