import { ApprovalRace, edits, type RaceFaults, type RaceOutcomes } from "@/test/builders/approval-races";
import { seededNumbers } from "./plan-concerto";
import { withThrowAwayDatabase } from "./throw-away-database";

type Row = Record<string, string | number>;

const pairs = 10_000;
/** Races under way at once, each of another piece; a piece has its pairs one after another. */
const atOnce = 8;
const pairsOfAPiece = 50;

/** Two players say yes while something changes, each over a connection of its own, on a Postgres of its own. */
export const benchmark = {
  name: `${pairs} racing pairs of a yes to freezing and a change`,
  async run(): Promise<Row[]> {
    return withThrowAwayDatabase(async () => {
      const start = performance.now();
      const races = await runAll();
      const seconds = (performance.now() - start) / 1000;
      const sum = <Name extends string>(name: Name, of: readonly Record<Name, number>[]) =>
        of.reduce((total, one) => total + one[name], 0);
      const outcomes = races.map((race) => race.outcomes);
      const faults = races.map((race) => race.faults);
      return [
        {
          pieces: races.length,
          pairs: sum("pairs", outcomes),
          "frozen, then changed": sum("frozenFirst", outcomes),
          "changed, then refused": sum("changedFirst", outcomes),
          "changed between the two": sum("changedBetween", outcomes),
          "yes to what was not seen": sum("unseen", faults),
          "double agreements": sum("doubles", faults),
          "other than asked for": sum("other", faults),
          "broken chains": sum("brokenChains", faults),
          "pairs a second": Math.round(pairs / seconds),
        },
      ];
    });
  },
};

interface Run {
  readonly outcomes: RaceOutcomes;
  readonly faults: RaceFaults;
}

async function runAll(): Promise<Run[]> {
  const runs: Run[] = [];
  let begun = 0;
  const lane = async () => {
    while (begun < pairs / pairsOfAPiece) {
      begun += 1;
      runs.push(await runPiece(begun));
    }
  };
  await Promise.all(Array.from({ length: atOnce }, lane));
  return runs;
}

async function runPiece(seed: number): Promise<Run> {
  const next = seededNumbers(20_261_126 + seed);
  const race = await ApprovalRace.begin();
  for (let pair = 0; pair < pairsOfAPiece; pair += 1) {
    const edit = edits[Math.floor(next() * edits.length)] ?? "breath";
    await race.run(edit, { isBoth: next() < 0.3, headStart: Math.floor(next() * 6) - 1 });
  }
  return { outcomes: race.outcomes, faults: await race.findFaults() };
}
