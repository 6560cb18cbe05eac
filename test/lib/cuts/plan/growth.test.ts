import { describe, expect, it } from "vitest";
import type { CutCandidate } from "@/lib/cuts/plan/cut-candidate";
import { planClusters, preparePlan } from "@/lib/cuts/plan/plan-setting";
import { readTempoMap } from "@/lib/score/tempo-map";
import { seededNumbers } from "../../../bench/plan-concerto";
import { at, buildScore } from "../../../builders/build-score";

const [tuttiBars, soloBars, beatsPerBar] = [40, 4, 4];
/** At 120 quarters a minute: 20 s are 40 beats. */
const [restSeconds, restBeats] = [20, 40];

const section = `${"R | ".repeat(tuttiBars)}${"c5:w | ".repeat(soloBars)}`;

/** Cuts from beat to beat in each tutti, each place drawn by chance. */
function drawCandidates(tuttis: number, perTutti: number): CutCandidate[] {
  const next = seededNumbers(7);
  const beat = () => Math.floor(next() * tuttiBars * beatsPerBar);
  return Array.from({ length: tuttis * perTutti }, (_, index) => {
    const first = (index % tuttis) * (tuttiBars + soloBars);
    const [from, to] = [beat(), beat()].sort((a, b) => a - b) as [number, number];
    const place = (beats: number) => at(first + Math.floor(beats / beatsPerBar), beats % beatsPerBar);
    return {
      from: place(from),
      to: place(Math.max(to, from + 1)),
      cost: Math.floor(next() * 1000) / 100,
      reasons: [],
    };
  });
}

/** How often a state is looked at when so many candidates are planned with a needed rest in each tutti. */
function countExamined(tuttis: number, perTutti: number): number {
  const solo = section.repeat(tuttis).replace(/ \| $/, "");
  const piano = Array.from({ length: tuttis * (tuttiBars + soloBars) }, () => "c3:w").join(" | ");
  const score = buildScore({ tempo: 120, solo, piano });
  const rests = Array.from({ length: tuttis }, (_, tutti) => {
    const first = tutti * (tuttiBars + soloBars);
    const needs = { seconds: restSeconds };
    return {
      id: `${tutti}`,
      from: at(first),
      to: at(first + tuttiBars),
      needs,
      why: "lip",
      releasedBy: null,
    } as const;
  });
  const setting = preparePlan(score, readTempoMap(score), drawCandidates(tuttis, perTutti), {
    limitSeconds: null,
    rests,
  });
  return planClusters(setting).reduce((sum, { examined }) => sum + examined, 0);
}

describe("how planning grows", () => {
  /** Every candidate lands once, and every place is passed once, with each length of silence that is told apart. */
  const most = (tuttis: number, perTutti: number) =>
    (restBeats + 2) * tuttis * (perTutti + tuttiBars * beatsPerBar + soloBars);

  it.each([25, 50, 100, 200, 400, 800, 1600, 3200])(
    "looks at no more than a fixed number of silences for each of %i candidates",
    (perTutti) => {
      expect(countExamined(1, perTutti)).toBeLessThanOrEqual(most(1, perTutti));
    },
  );

  it("grows linearly in candidates where all lengths of silence are reached", () => {
    const [some, more] = [countExamined(1, 1600), countExamined(1, 3200)];
    expect(more / some).toBeLessThanOrEqual(2);
  });

  it("grows linearly in tuttis", () => {
    const one = countExamined(4, 100);
    expect(countExamined(8, 100) / one).toBeLessThan(2.2);
  });
});
