import { beforeAll, describe, expect, test } from "vitest";
import type { CutSpan } from "@/lib/score/cut-span";
import { openStudy, type Study } from "@/lib/study/open-study";
import { type PiecePlan, type PlanQuestion, planPiece } from "@/lib/study/plan-piece";
import { weighSet } from "@/lib/study/weigh-set";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";

const question: PlanQuestion = {
  ...{ options: { limitSeconds: 440 }, agreed: [], filters: {}, allowsRough: false, without: [] },
};

/** Drives a plan to its end. @returns it, and after how many steps. */
function drive(study: Study, asked: PlanQuestion): { plan: PiecePlan; steps: number } {
  const work = planPiece(study, asked);
  let steps = 0;
  for (let step = work.next(); ; step = work.next()) {
    if (step.done) return { plan: step.value, steps };
    steps += 1;
  }
}

describe("the plan of the demo", () => {
  let study: Study;
  beforeAll(() => {
    const opened = openStudy(new TextEncoder().encode(writeSoloAndReduction()), {
      partRoles: {},
      tempo: { tempi: [], timings: [], fermataFactor: 1.75, ritardandoTo: 0.75 },
      longTuttiBars: 17,
    });
    if (!opened.ok) throw new Error("The demo cannot be read.");
    study = opened.value;
  });

  test("searches once: another limit, wish or weight is answered without a step", () => {
    expect(drive(study, question).steps).toBeGreaterThan(0);
    const again: Partial<PlanQuestion>[] = [
      { options: { limitSeconds: 400, weights: { perCut: 1 } } },
      { allowsRough: true },
      { options: { limitSeconds: null, limitPace: "slow" } },
    ];
    for (const change of again) expect(drive(study, { ...question, ...change }).steps).toBe(0);
    expect(drive(study, { ...question, filters: { keepLastBars: 8 } }).steps).toBeGreaterThan(0);
  });

  test("does without a cut that was left out, and offers no rough join unless told", () => {
    const { plan } = drive(study, question);
    const [cut] = plan.plan.best?.cuts ?? [];
    if (!cut) throw new Error("The demo needs a cut for this limit.");
    const without: CutSpan[] = [{ from: cut.candidate.from, to: cut.candidate.to }];
    const other = drive(study, { ...question, without }).plan;
    expect(other.candidates).toHaveLength(plan.candidates.length - 1);
    expect(other.candidates.some(({ name }) => name === plan.candidates[cut.index]?.name)).toBe(false);
    expect(plan.candidates.every(({ grade }) => grade !== "rough")).toBe(true);
  });

  test("what a cut takes out of the clock is what the set saves", () => {
    const { plan } = drive(study, question);
    const indices = plan.plan.best?.cuts.map(({ index }) => index) ?? [];
    const cuts = indices.flatMap((index) => plan.candidates[index] ?? []);
    const gone = cuts.flatMap(({ gaps }) => gaps).reduce((sum, { from, to }) => sum + to - from, 0);
    const weighed = weighSet(study, {
      cuts: cuts.map(({ from, to }) => ({ from, to })),
      agreed: [],
      needs: [],
    });
    expect(weighed.runningTime.seconds).toBeCloseTo(plan.plan.wholeSeconds - gone, 2);
    expect(plan.plan.best?.runsSeconds).toBeCloseTo(weighed.runningTime.seconds, 2);
    expect(weighed.cuts.map(({ savedSeconds }) => savedSeconds).reduce((a, b) => a + b, 0)).toBeCloseTo(
      gone,
      2,
    );
  });

  test("goes on from what is agreed", () => {
    const agreed = drive(study, question).plan.plan.best?.cuts.map(({ candidate: { from, to } }) => ({
      from,
      to,
    }));
    const { plan } = drive(study, { ...question, agreed: agreed ?? [] });
    expect(plan.plan.best?.cuts).toEqual([]);
    expect(plan.plan.standsSeconds).toBeLessThanOrEqual(440);
  });
});
