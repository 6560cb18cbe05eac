import { planCuts } from "@/lib/cuts/plan/plan-cuts";
import { Choices } from "../builders/choices";
import { makePlanCase } from "../lib/cuts/plan/random-plan";
import { findFront, tryAllSets } from "../lib/cuts/plan/try-all-sets";
import { type ConcertoShape, composeConcerto, seededNumbers } from "./plan-concerto";

type Row = Record<string, string | number>;

function measurePlanning(what: string, shape: ConcertoShape, limitShare = 0.75): Row {
  const { score, map, candidates, rests } = composeConcerto(shape);
  const wholeSeconds = planCuts(score, map, [], { limitSeconds: null }).wholeSeconds;
  const options = { limitSeconds: Math.round(wholeSeconds * limitShare), rests };
  let best = Number.POSITIVE_INFINITY;
  let plan = planCuts(score, map, candidates, options);
  for (let round = 0; round < 3; round += 1) {
    const start = performance.now();
    plan = planCuts(score, map, candidates, options);
    best = Math.min(best, performance.now() - start);
  }
  return {
    what,
    candidates: candidates.length,
    "limit s": options.limitSeconds,
    ms: Math.round(best),
    front: plan.front.length,
    cuts: plan.best?.cuts.length ?? "nothing fits",
  };
}

/** Cases in which the plan's front differs from that of every set tried. */
function compareWithTrying(count: number): Row {
  const next = seededNumbers(20_260_101);
  let [differ, withCuts, shaped] = [0, 0, 0];
  for (let run = 0; run < count; run += 1) {
    const plan = makePlanCase(new Choices(Array.from({ length: 200 }, () => Math.floor(next() * 10_000))));
    const planned = planCuts(plan.score, plan.map, plan.candidates, { ...plan.options, runnersUp: 0 });
    const front = planned.front.map((point) =>
      [point.savedSeconds, point.cost].map((x) => Math.round(1000 * x)),
    );
    const sets = tryAllSets(plan);
    if (JSON.stringify(front) !== JSON.stringify(findFront(sets))) differ += 1;
    if (planned.best?.cuts.length) withCuts += 1;
    const free = tryAllSets({ ...plan, options: { ...plan.options, rests: [] } });
    if (sets.length < free.length) shaped += 1;
  }
  return { what: `${count} small cases`, differ, "best set has cuts": withCuts, "needs forbid sets": shaped };
}

/** The plan against every set tried, and its time for long pieces. */
export const benchmark = {
  name: "Planning a set of cuts",
  async run(): Promise<Row[]> {
    const shape = { tuttis: 12, candidatesPerTutti: 200, acrossSolo: 0, restSeconds: 25 };
    measurePlanning("warm", { ...shape, candidatesPerTutti: 50 });
    return [
      compareWithTrying(10_000),
      measurePlanning("no rest needed", { ...shape, restSeconds: 0 }),
      ...[25, 50, 100, 200, 400].map((candidatesPerTutti) =>
        measurePlanning("25 s of rest in each tutti", { ...shape, candidatesPerTutti }),
      ),
      ...[0.9, 0.75, 0.6].map((share) => measurePlanning(`limit ${share}`, shape, share)),
      ...[3, 6, 12, 24].map((tuttis) => measurePlanning(`${tuttis} tuttis`, { ...shape, tuttis })),
      measurePlanning("a tenth of the cuts go over a solo", { ...shape, acrossSolo: 0.1 }),
    ];
  },
};
