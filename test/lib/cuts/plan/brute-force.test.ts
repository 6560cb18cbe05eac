import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { planCuts } from "@/lib/cuts/plan/plan-cuts";
import { arbitraryChoices } from "../../../builders/choices";
import { makePlanCase } from "./random-plan";
import { findFront, tryAllSets } from "./try-all-sets";

describe("planning cuts against trying every set", () => {
  it("finds the same front, and the cheapest set that fits", () => {
    fc.assert(
      fc.property(arbitraryChoices, (choices) => {
        const plan = makePlanCase(choices);
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
        const fitting = sets.filter(
          ({ savedMilliseconds }) => savedMilliseconds >= Math.round(1000 * needed),
        );
        const cheapest = Math.min(...fitting.map(({ cost }) => cost));
        expect(planned.best ? Math.round(planned.best.cost * 1000) : Number.POSITIVE_INFINITY).toBe(cheapest);
      }),
      { numRuns: 400 },
    );
  });
});
