import { planCuts } from "@/lib/cuts/plan/plan-cuts";
import { Choices } from "../builders/choices";
import { makePlanCase, type PlanCase } from "../lib/cuts/plan/random-plan";
import { findFront, tryAllSets } from "../lib/cuts/plan/try-all-sets";
import { type ConcertoShape, composeConcerto, seededNumbers } from "./plan-concerto";

type Row = Record<string, string | number>;

function measurePlanning(what: string, shape: ConcertoShape, limitShare = 0.75): Row {
  const { score, map, candidates, rests } = composeConcerto(shape);
  const wholeSeconds = planCuts(score, map, [], { limitSeconds: null }).wholeSeconds;
  const options = { limitSeconds: Math.round(wholeSeconds * limitShare), rests };
  return measure(what, { score, map, candidates, rests }, options.limitSeconds);
}

/** Five seconds shorter than it can get: what stands in the way has to be found for every rest. */
function measureFailing(what: string, shape: ConcertoShape): Row {
  const concerto = composeConcerto(shape);
  const { score, map, candidates, rests } = concerto;
  const { shortest } = planCuts(score, map, candidates, { limitSeconds: null, rests });
  return measure(what, concerto, Math.floor(shortest.runsSeconds) - 5);
}

/** Processor time, the least of three rounds: what else the machine does lengthens the clock's time only. */
function measure(what: string, concerto: ReturnType<typeof composeConcerto>, limitSeconds: number): Row {
  const { score, map, candidates, rests } = concerto;
  const used = () => {
    const { user, system } = process.cpuUsage();
    return (user + system) / 1000;
  };
  const rounds = [1, 2, 3].map(() => {
    const [start, startUsed] = [performance.now(), used()];
    const plan = planCuts(score, map, candidates, { limitSeconds, rests });
    return { ms: performance.now() - start, processor: used() - startUsed, plan };
  });
  const [first] = rounds;
  return {
    what,
    candidates: candidates.length,
    "limit s": limitSeconds,
    ms: Math.round(Math.min(...rounds.map(({ ms }) => ms))),
    "processor ms": Math.round(Math.min(...rounds.map(({ processor }) => processor))),
    front: first?.plan.front.length ?? 0,
    cuts: first?.plan.best?.cuts.length ?? "nothing fits",
  };
}

/** The same case with its first candidate agreed. */
function agreeFirst(plan: PlanCase): PlanCase {
  const [first, ...candidates] = plan.candidates;
  const agreed = first ? [{ from: first.from, to: first.to }] : [];
  return { ...plan, candidates, options: { ...plan.options, agreed } };
}

/** Cases in which the plan's front differs from that of every set tried. */
function compareWithTrying(count: number): Row {
  const next = seededNumbers(20_260_101);
  let [differ, withCuts, shaped] = [0, 0, 0];
  for (let run = 0; run < count; run += 1) {
    const whole = makePlanCase(new Choices(Array.from({ length: 200 }, () => Math.floor(next() * 10_000))));
    const plan = run % 2 === 0 ? whole : agreeFirst(whole);
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
  return {
    what: `${count} small cases, every other with an agreed cut`,
    differ,
    "best set has cuts": withCuts,
    "needs forbid sets": shaped,
  };
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
      ...[214, 107, 53.5, 26.75].map((tempo) =>
        measurePlanning("the same at other tempi", { ...shape, tempo, restSeconds: (25 * 107) / tempo }),
      ),
      ...[3, 6, 12, 24].map((tuttis) => measurePlanning(`${tuttis} tuttis`, { ...shape, tuttis })),
      ...[6, 12, 24].map((tuttis) =>
        measurePlanning(`a tenth of the cuts go over a solo, ${tuttis} tuttis`, {
          ...shape,
          tuttis,
          acrossSolo: 0.1,
        }),
      ),
      ...[24, 200].map((candidatesPerTutti) =>
        measureFailing("nothing fits, 60 s of rest in each tutti", {
          ...shape,
          candidatesPerTutti,
          restSeconds: 60,
        }),
      ),
    ];
  },
};
