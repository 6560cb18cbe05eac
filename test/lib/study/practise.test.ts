import { describe, expect, test } from "vitest";
import { type HandsProfile, usualHands } from "@/lib/hands/hands-profile";
import { needOf } from "@/lib/practice/order-passages";
import { compareRatios } from "@/lib/practice/ratio";
import { planLadder } from "@/lib/practice/tempo-ladder";
import { finishSteps } from "@/lib/score/steps";
import { readSchedule } from "@/lib/sound/read-schedule";
import { handsAtTempo } from "@/lib/study/hands-at-tempo";
import { practisePiece } from "@/lib/study/practise";
import { studyDemo } from "./demo-study";

const study = studyDemo();
const practised = (hands: HandsProfile) => finishSteps(practisePiece(study, { hands }));
const passages = practised(usualHands);

describe("what there is to practise in the demo", () => {
  test("is what is awkward at performance tempo, the neediest first", () => {
    const view = finishSteps(handsAtTempo(study, { hands: usualHands, pace: 1, counted: [] }));
    const bars = (all: readonly { fromBar: number; toBar: number }[]) =>
      all.map(({ fromBar, toBar }) => `${fromBar}-${toBar}`).sort();
    expect(bars(passages)).toEqual(bars(view.passages));
    expect(passages.length).toBeGreaterThan(2);
    const needs = passages.map(needOf);
    expect(needs).toEqual(needs.toSorted((a, b) => compareRatios(b, a)));
  });

  test("has the printed tempo as its goal, in whole beats, and a ladder from what is comfortable", () => {
    // Tempo I, a quarter = 126.
    const repeated = passages.find(({ label }) => label.startsWith("bars 112"));
    expect(repeated?.tempo).toEqual({ beat: "1", perMinute: 126 });
    for (const passage of passages) {
      const { rungs } = planLadder(passage, []);
      expect(rungs.at(-1)?.perMinute).toBe(passage.tempo.perMinute);
      if (passage.comfortablePace > 1 / 3 && passage.comfortablePace < 1)
        expect(rungs[0]?.perMinute).toBeLessThanOrEqual(
          passage.comfortablePace * passage.tempo.perMinute + 1e-6,
        );
    }
  });

  test("tells of every reason what it gives and from what", () => {
    const reasons = passages.flatMap(({ weight }) => weight.reasons);
    expect(reasons.map(({ kind }) => kind)).toContain("exposed");
    for (const { factor, words } of reasons) {
      expect(factor.num / factor.den).toBeGreaterThan(1);
      expect(words).not.toBe("");
    }
  });

  test("can be played from its first bar to the end of its last", () => {
    for (const { fromBar, end } of passages) {
      const first = study.score.bars[fromBar];
      if (!first) throw new RangeError(`No bar ${fromBar}`);
      const from = { barIndex: fromBar, offset: { ...first.start, num: 0, den: 1 } };
      const { notes } = readSchedule(study.score, study.map, { kind: "span", from, to: end, cuts: [] });
      expect(notes.length).toBeGreaterThan(0);
    }
  });

  test("is nothing for hands that manage everything", () => {
    const giant: HandsProfile = {
      ...usualHands,
      ...{ left: { comfortable: 24, possible: 24 }, right: { comfortable: 24, possible: 24 } },
      ...{ repeatedNotes: 20, repeatedChords: 20, octavesInARow: 20, runs: 20, leaps: 0.5 },
    };
    expect(practised(giant)).toEqual([]);
  });
});
