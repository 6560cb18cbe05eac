import { describe, expect, it } from "vitest";
import { listen } from "@/lib/cuts/join/listen";
import { findPlanCandidates, foundCutWeights, type PlanSpan } from "@/lib/cuts/plan/find-plan-candidates";
import { planCuts } from "@/lib/cuts/plan/plan-cuts";
import { at } from "../../../builders/build-score";
import { buildTutti } from "../search/tutti-score";

const score = buildTutti({ order: [...Array(18).keys(), 0, 1, 2, 3] });
const heard = listen(score);
const tutti: PlanSpan = { from: at(1), to: at(23), isOpening: false };

function gather(spans: PlanSpan[], options: Parameters<typeof findPlanCandidates>[2] = {}) {
  const search = findPlanCandidates(() => heard, spans, options);
  const shares: number[] = [];
  let step = search.next();
  for (; !step.done; step = search.next()) shares.push(step.value.done / step.value.total);
  return { found: step.value, shares };
}

describe("the candidates of a plan", () => {
  it("are cuts from bar line to bar line inside the spans, each once, and none that is rough", () => {
    const { found } = gather([tutti, tutti]);
    expect(found.length).toBeGreaterThan(4);
    expect(new Set(found.map(({ from, to }) => `${from.barIndex} ${to.barIndex}`)).size).toBe(found.length);
    for (const { from, to, grade } of found) {
      expect([from.offset.num, to.offset.num]).toEqual([0, 0]);
      expect(from.barIndex >= 1 && to.barIndex <= 23).toBe(true);
      expect(grade).not.toBe("rough");
    }
  });

  it("take in rough ones when asked, and keep to filters", () => {
    const all = gather([tutti], { allowsRough: true, filters: { limit: 60 } }).found;
    expect(all.length).toBeGreaterThan(gather([tutti], { filters: { limit: 60 } }).found.length);
    const few = gather([tutti], { filters: { limit: 3, keepLastBars: 10 } }).found;
    expect(few.length).toBeLessThanOrEqual(3);
    for (const { to } of few) expect(to.barIndex).toBeLessThanOrEqual(13);
  });

  it("begin an opening later", () => {
    const { found } = gather([{ ...tutti, from: at(0), isOpening: true }], { allowsRough: true });
    expect(found.some(({ from }) => from.barIndex === 0)).toBe(true);
  });

  it("tell how far the search has come, and never go back", () => {
    const { shares } = gather([tutti, { ...tutti, to: at(20) }]);
    expect(shares[0]).toBe(0);
    expect(shares.toSorted((a, b) => a - b)).toEqual(shares);
    expect(Math.max(...shares)).toBeLessThanOrEqual(1);
  });

  it("weigh so that one cut is taken before two that sound as well, and the shorter of two", () => {
    const cut = (from: number, to: number) => ({ from: at(from), to: at(to), cost: 0, reasons: [] });
    const whole = planCuts(score, heard.map, [], { limitSeconds: null }).wholeSeconds;
    const plan = planCuts(score, heard.map, [cut(2, 6), cut(8, 12), cut(14, 22), cut(13, 22)], {
      limitSeconds: whole - 15,
      weights: foundCutWeights,
    });
    expect(plan.best?.cuts.map(({ index }) => index)).toEqual([2]);
  });
});
