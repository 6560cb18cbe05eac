import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { planCuts } from "@/lib/cuts/plan/plan-cuts";
import type { PlanOptions } from "@/lib/cuts/plan/plan-options";
import { arbitraryChoices } from "../../../builders/choices";
import { makePlanCase, type PlanCase } from "./random-plan";

/** Infinite when nothing fits. */
function cheapest({ score, map, candidates, options }: PlanCase, other: Partial<PlanOptions> = {}): number {
  const plan = planCuts(score, map, candidates, { ...options, ...other, runnersUp: 0 });
  return plan.best?.cost ?? Number.POSITIVE_INFINITY;
}

function holds(law: (plan: PlanCase) => void): void {
  fc.assert(
    fc.property(arbitraryChoices, (choices) => law(makePlanCase(choices))),
    { numRuns: 150 },
  );
}

describe("laws of planning", () => {
  it("a looser limit is never dearer", () => {
    holds((plan) => {
      const looser = (plan.options.limitSeconds ?? 0) + 3.5;
      expect(cheapest(plan, { limitSeconds: looser })).toBeLessThanOrEqual(cheapest(plan));
    });
  });

  it("one more candidate never makes it dearer", () => {
    holds((plan) => {
      const fewer = { ...plan, candidates: plan.candidates.slice(1) };
      expect(cheapest(plan)).toBeLessThanOrEqual(cheapest(fewer));
    });
  });

  it("a need let go never makes it dearer", () => {
    holds((plan) => {
      const [first, ...others] = plan.options.rests ?? [];
      const rests = first ? [{ ...first, releasedBy: "matthis" }, ...others] : [];
      expect(cheapest(plan, { rests })).toBeLessThanOrEqual(cheapest(plan));
    });
  });

  it("what stands in the way is exact: the rest that is left can be left, and no more", () => {
    holds(({ score, map, candidates, options }) => {
      const { obstacle } = planCuts(score, map, candidates, options);
      for (const { needId, unit, left, shortBy } of obstacle?.rests ?? []) {
        expect(shortBy).toBeGreaterThan(0);
        const ask = (amount: number) => {
          const needs = unit === "seconds" ? { seconds: amount } : { bars: amount };
          const rests = (options.rests ?? []).map((need) => (need.id === needId ? { ...need, needs } : need));
          return planCuts(score, map, candidates, { ...options, rests }).best;
        };
        expect(ask(left)).not.toBeNull();
        expect(ask(unit === "seconds" ? left + 0.001 : left + 1)).toBeNull();
      }
    });
  });

  it("other sets that fit are no cheaper than the best", () => {
    holds(({ score, map, candidates, options }) => {
      const { best, runnersUp } = planCuts(score, map, candidates, options);
      for (const other of runnersUp) {
        expect(other.cost).toBeGreaterThanOrEqual(best!.cost);
        expect(other.runsSeconds).toBeLessThanOrEqual(options.limitSeconds!);
        expect(best!.cuts.every(({ index }) => other.cuts.some((cut) => cut.index === index))).toBe(false);
      }
    });
  });

  it("the order of the candidates does not matter", () => {
    holds((plan) => {
      const turned = { ...plan, candidates: plan.candidates.toReversed() };
      const front = ({ score, map, candidates, options }: PlanCase) =>
        planCuts(score, map, candidates, options).front.map(({ savedSeconds, cost }) => [savedSeconds, cost]);
      expect(front(turned)).toEqual(front(plan));
    });
  });
});
