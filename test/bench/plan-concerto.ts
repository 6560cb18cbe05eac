import type { CutCandidate } from "@/lib/cuts/plan/cut-candidate";
import type { RestNeed } from "@/lib/edition/rest-need";
import { readTempoMap } from "@/lib/score/tempo-map";
import { at, buildScore } from "../builders/build-score";

/** Numbers from 0 to 1 that are the same in every run (xorshift32). */
export function seededNumbers(seed: number): () => number {
  let state = seed;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

const [tuttiBars, soloBars] = [40, 20];

export interface ConcertoShape {
  readonly tuttis: number;
  readonly candidatesPerTutti: number;
  /** Share of the candidates that land in the next tutti, over the solo between. */
  readonly acrossSolo: number;
  /** Of each tutti, in seconds; 0 for none. */
  readonly restSeconds: number;
  /** Quarters a minute; 107 unless told, at which no beat is a whole number of milliseconds. */
  readonly tempo?: number;
}

/**
 * An invented concerto: tuttis of 40 bars with a ritardando at their end, solos of 20 bars. Candidates begin and end on
 * beats; their costs have two decimals.
 */
export function composeConcerto(
  { tuttis, candidatesPerTutti, acrossSolo, restSeconds, tempo = 107 }: ConcertoShape,
  seed = 1,
) {
  const next = seededNumbers(seed);
  const below = (count: number) => Math.floor(next() * count);
  const section = `"a tempo" ${"R | ".repeat(tuttiBars - 2)}"rit." R | R | "a tempo" ${"c5:h d5:q r:q | ".repeat(soloBars)}`;
  const solo = section.repeat(tuttis).replace(/ \| $/, "");
  const barCount = tuttis * (tuttiBars + soloBars);
  const piano = Array.from({ length: barCount }, () => "c3:w").join(" | ");
  const score = buildScore({ tempo, solo, piano });
  const candidates: CutCandidate[] = [];
  const rests: RestNeed[] = [];
  for (let tutti = 0; tutti < tuttis; tutti += 1) {
    const first = tutti * (tuttiBars + soloBars);
    if (restSeconds > 0) {
      const span = { from: at(first), to: at(first + tuttiBars) };
      const needs = { seconds: restSeconds };
      rests.push({ id: `tutti ${tutti}`, ...span, needs, why: "lip", releasedBy: null });
    }
    for (let index = 0; index < candidatesPerTutti; index += 1) {
      const [a, b] = [below(tuttiBars * 4), below(tuttiBars * 4)].sort((x, y) => x - y) as [number, number];
      const isAcross = next() < acrossSolo && tutti < tuttis - 1;
      const end = isAcross ? b + (tuttiBars + soloBars) * 4 : Math.max(b, a + 1);
      const place = (beat: number) => at(first + Math.floor(beat / 4), beat % 4);
      candidates.push({ from: place(a), to: place(end), cost: below(1000) / 100, reasons: [] });
    }
  }
  return { score, map: readTempoMap(score), candidates, rests };
}
