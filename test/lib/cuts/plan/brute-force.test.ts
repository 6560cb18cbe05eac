import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { planCuts } from "@/lib/cuts/plan/plan-cuts";
import { arbitraryChoices } from "../../../builders/choices";
import { makePlanCase, type PlanCase } from "./random-plan";
import { findFront, tryAllSets } from "./try-all-sets";

function comparePlan(plan: PlanCase): void {
  const { score, map, candidates, options } = plan;
  const planned = planCuts(score, map, candidates, options);
  const sets = tryAllSets(plan);
  const inThousandths = planned.front.map(({ savedSeconds, cost }) => [
    Math.round(savedSeconds * 1000),
    Math.round(cost * 1000),
  ]);
  expect(inThousandths).toEqual(findFront(sets));
  for (const { cuts } of planned.front) {
    expect(sets.map((set) => set.cuts.join(" "))).toContain(cuts.join(" "));
  }
  const needed = planned.wholeSeconds - (options.limitSeconds ?? 0);
  const fitting = sets.filter(({ savedMilliseconds }) => savedMilliseconds >= Math.round(1000 * needed));
  const cheapest = Math.min(...fitting.map(({ cost }) => cost));
  expect(planned.best ? Math.round(planned.best.cost * 1000) : Number.POSITIVE_INFINITY).toBe(cheapest);
}

describe("planning cuts against trying every set", () => {
  it("finds the same front, and the cheapest set that fits", () => {
    fc.assert(
      fc.property(arbitraryChoices, (choices) => comparePlan(makePlanCase(choices))),
      { numRuns: 400 },
    );
  });

  it("finds them around the cuts that are agreed", () => {
    fc.assert(
      fc.property(arbitraryChoices, fc.integer({ min: 1, max: 3 }), (choices, count) => {
        const plan = makePlanCase(choices);
        const agreed = plan.candidates.slice(0, count).map(({ from, to }) => ({ from, to }));
        const candidates = plan.candidates.slice(count);
        comparePlan({ ...plan, candidates, options: { ...plan.options, agreed } });
      }),
      { numRuns: 400 },
    );
  });

  it("offers for each cut of the best set the cheapest set without it", () => {
    fc.assert(
      fc.property(arbitraryChoices, (choices) => {
        const plan = makePlanCase(choices);
        const { score, map, candidates, options } = plan;
        const planned = planCuts(score, map, candidates, { ...options, runnersUp: 8 });
        const needed = Math.round(1000 * (planned.wholeSeconds - (options.limitSeconds ?? 0)));
        const fitting = tryAllSets(plan).filter(({ savedMilliseconds }) => savedMilliseconds >= needed);
        for (const { index } of planned.best?.cuts ?? []) {
          const without = fitting.filter(({ cuts }) => !cuts.includes(index));
          const cheapest = Math.min(...without.map(({ cost }) => cost));
          const offered = planned.runnersUp.filter(({ cuts }) => !cuts.some((cut) => cut.index === index));
          const costs = offered.map(({ cost }) => Math.round(cost * 1000));
          expect(Math.min(...costs)).toBe(cheapest);
        }
      }),
      { numRuns: 300 },
    );
  });
});
