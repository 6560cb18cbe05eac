import { describe, expect, test } from "vitest";
import type { RestNeed } from "@/lib/edition/rest-need";
import type { CutSpan } from "@/lib/score/cut-span";
import { comparePositions } from "@/lib/score/position";
import { breathe } from "@/lib/study/breathe";
import { judgeCut } from "@/lib/study/judge-cut";
import { lookForCuts, type OfferedCut } from "@/lib/study/look-for-cuts";
import { type PiecePlan, type PlanQuestion, planPiece } from "@/lib/study/plan-piece";
import { CUT_TRAPS, GOOD_CUT, TUTTIS } from "@/seed/concertino/planted";
import { placeIn, spanIn, studyDemo } from "./demo-study";

const study = studyDemo();
const good = spanIn(study, GOOD_CUT);

const isSame = (a: CutSpan, b: CutSpan) =>
  comparePositions(a.from, b.from) === 0 && comparePositions(a.to, b.to) === 0;

function trap(kind: (typeof CUT_TRAPS)[number]["kind"]): CutSpan {
  const found = CUT_TRAPS.find((one) => one.kind === kind);
  if (!found) throw new Error(`no trap of the kind ${kind}`);
  return spanIn(study, found);
}

/** Twenty-five seconds in the central tutti. */
const need: RestNeed = {
  id: "lip",
  from: placeIn(study, { bar: "97", quarter: 0 }),
  to: placeIn(study, { bar: "119", quarter: 0 }),
  needs: { seconds: 25 },
  why: "lip",
  releasedBy: null,
};

function runOut<T>(steps: Generator<unknown, T>): T {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

function judged(cut: CutSpan, needs: readonly RestNeed[] = [], agreed: readonly CutSpan[] = []) {
  const answer = judgeCut(study, { cut, agreed, needs });
  if (!answer.ok) throw new Error(answer.problem.sentence);
  return answer.value;
}

describe("judging one cut", () => {
  test("the planted good cut: a clean join, its seconds, and no need touched", () => {
    const { name, join, weight, needs } = judged(good, [need]);
    expect(name).toBe("bars 9–16");
    expect(join.grade).toBe("clean");
    expect(weight.barCount).toBe(8);
    expect(needs).toEqual([]);
  });

  test("a cut that takes a needed rest: the need with its figures", () => {
    const { needs } = judged(trap("stolen rest"), [need]);
    expect(needs.map(({ verdict }) => verdict)).toEqual(["short"]);
    expect(needs[0]?.seconds.shortBy).toBeGreaterThan(0);
  });

  test("a need that was let go is told, and is not short", () => {
    const { needs } = judged(trap("stolen rest"), [{ ...need, releasedBy: "soloist" }]);
    expect(needs.map(({ verdict }) => verdict)).toEqual(["released"]);
  });

  test("a cut that cannot be made has a sentence", () => {
    const answer = judgeCut(study, { cut: { from: good.to, to: good.from }, agreed: [], needs: [] });
    expect(answer.ok ? "" : answer.problem.sentence).toMatch(/^[A-Z].*\.$/);
  });
});

describe("looking for cuts", () => {
  const opening = TUTTIS[0];
  if (!opening) throw new Error("the demo has no opening tutti");
  const span = spanIn(study, { from: { bar: "1", quarter: 0 }, to: opening.to });
  const look = (more: Partial<Parameters<typeof lookForCuts>[1]> = {}): OfferedCut[] =>
    runOut(
      lookForCuts(study, { span, look: "anywhere", filters: { limit: 5 }, agreed: [], needs: [], ...more }),
    );

  test("the planted good cut is among the first three, weighed as it is judged alone", () => {
    const found = look();
    const place = found.findIndex((cut) => isSame(cut, good));
    expect(place).toBeGreaterThanOrEqual(0);
    expect(place).toBeLessThan(3);
    expect(found[place]?.weight).toEqual(judged(good).weight);
    expect(found[place]?.grade).toBe(judged(good).join.grade);
  });

  test("nothing that shares bars with an agreed cut is offered", () => {
    const found = look({ agreed: [good] });
    const shares = ({ from, to }: CutSpan) =>
      comparePositions(from, good.to) < 0 && comparePositions(good.from, to) < 0;
    expect(found.length).toBeGreaterThan(0);
    expect(found.filter(shares)).toEqual([]);
  });

  test("places to start at are cuts from the very beginning", () => {
    const found = look({ look: "starts" });
    expect(found.length).toBeGreaterThan(0);
    expect(new Set(found.map(({ from }) => from.barIndex))).toEqual(new Set([0]));
  });

  test("a cut says which needs it robs", () => {
    const central = spanIn(study, { from: { bar: "97", quarter: 0 }, to: { bar: "119", quarter: 0 } });
    const longOnes = { limit: 10, keepLastBars: 0, leastSeconds: 20 };
    const found = look({ span: central, filters: longOnes, needs: [need] });
    const alone = found.map((cut) => judged(cut, [need]).needs.some(({ verdict }) => verdict === "short"));
    expect(found.map(({ robs }) => robs.length > 0)).toEqual(alone);
    expect(alone).toContain(true);
  });
});

describe("planning the piece", () => {
  const question: PlanQuestion = {
    options: { limitSeconds: null },
    agreed: [],
    filters: {},
    allowsRough: false,
    without: [],
  };
  const plan = (options: PlanQuestion["options"], more: Partial<PlanQuestion> = {}): PiecePlan =>
    runOut(planPiece(study, { ...question, ...more, options }));
  const whole = plan({ limitSeconds: null }).plan;

  test("without a limit everything is played, and the ways to shorten it are there", () => {
    expect(whole.best?.cuts).toEqual([]);
    expect(whole.front.length).toBeGreaterThan(3);
    const runs = whole.front.map(({ runsSeconds }) => runsSeconds);
    expect(runs).toEqual(runs.toSorted((a, b) => b - a));
  });

  test("a limit is met, with joins that are not rough, and every need kept", () => {
    const limitSeconds = Math.ceil(whole.shortest.runsSeconds) + 10;
    const { candidates, plan: met } = plan({ limitSeconds, rests: [need] });
    const best = met.best ?? met.shortest;
    expect(met.best === null ? met.obstacle : best.runsSeconds).not.toBeNull();
    const spans = best.cuts.map(({ candidate }) => candidate);
    expect(best.cuts.map(({ index }) => candidates[index]?.grade)).not.toContain("rough");
    const { needs } = breathe(study, {
      cuts: spans,
      needs: [need],
      marks: [],
      preferences: {},
      shortestRest: 4,
    });
    expect(needs.map(({ verdict }) => verdict)).toEqual(["kept"]);
  });

  test("a limit that nothing meets says by how many seconds", () => {
    const { plan: missed } = plan({ limitSeconds: 60, rests: [need] });
    expect(missed.best).toBeNull();
    expect(missed.obstacle?.missesBySeconds).toBeCloseTo(missed.shortest.runsSeconds - 60, 3);
  });
});

describe("breathing", () => {
  test("every rest of the soloist, and the cut that shortens one", () => {
    const question = { needs: [need], marks: [], preferences: {}, shortestRest: 4 };
    const cut = trap("stolen rest");
    const { rests, needs, before, after } = breathe(study, { ...question, cuts: [cut] });
    const shortened = rests.filter(({ seconds }) => seconds.after < seconds.before);
    expect(shortened).toHaveLength(1);
    expect(needs.map(({ verdict }) => verdict)).toEqual(["short"]);
    expect(before?.longest?.seconds).toBeGreaterThan(0);
    expect(after?.stretches.length).toBeGreaterThan(0);
    expect(breathe(study, { ...question, cuts: [] }).rests.map(({ seconds }) => seconds.before)).toEqual(
      rests.map(({ seconds }) => seconds.before),
    );
  });
});
