import { describe, expect, it } from "vitest";
import type { CutCandidate } from "@/lib/cuts/plan/cut-candidate";
import { keepBarsBefore, keepRehearsalMark } from "@/lib/cuts/plan/keep-spans";
import { describePlan, planCuts } from "@/lib/cuts/plan/plan-cuts";
import type { PlanOptions } from "@/lib/cuts/plan/plan-options";
import type { RestNeed } from "@/lib/edition/rest-need";
import { readTempoMap } from "@/lib/score/tempo-map";
import { at, buildScore, type ScoreText } from "../../../builders/build-score";

const piano = (bars: number) => Array.from({ length: bars }, () => "c3:w").join(" | ");
/** Bars of 4 s: a tutti of 10 bars, 2 of solo, a tutti of 8 bars, 4 of solo. */
const concerto: ScoreText = {
  tempo: 60,
  solo: "R*10 | c5:w | c5:w | [B] R*8 | [C] c5:w | c5:w | c5:w | c5:w",
  piano: piano(24),
};

const cut = (from: number, to: number, cost: number): CutCandidate => ({
  from: at(from),
  to: at(to),
  cost,
  reasons: [],
});

const need = (from: number, to: number, needs: RestNeed["needs"], id = "lip"): RestNeed => {
  return { id, from: at(from), to: at(to), needs, why: "lip", releasedBy: null };
};

function plan(candidates: CutCandidate[], options: PlanOptions, text: ScoreText = concerto) {
  const score = buildScore(text);
  return planCuts(score, readTempoMap(score), candidates, options);
}

const chosen = (set: { cuts: readonly { index: number }[] } | null) => set?.cuts.map(({ index }) => index);

describe("planning a set of cuts", () => {
  const opening = cut(0, 6, 3);
  const opener = cut(2, 8, 1);
  const second = cut(13, 17, 2);

  it("takes the cheapest set that fits, and nothing when everything fits", () => {
    expect(chosen(plan([opening, opener, second], { limitSeconds: 96 }).best)).toEqual([]);
    expect(chosen(plan([opening, opener, second], { limitSeconds: 95 }).best)).toEqual([1]);
    expect(chosen(plan([opening, opener, second], { limitSeconds: 60 }).best)).toEqual([1, 2]);
    expect(chosen(plan([opening, opener, second], { limitSeconds: null }).best)).toEqual([]);
  });

  it("shows what each cut saves and costs, and the whole front", () => {
    const planned = plan([opening, second], { limitSeconds: 60, weights: { perCut: 0.5, perSecond: 0.25 } });
    expect(planned.best?.cuts).toMatchObject([
      { savedSeconds: 24, cost: { join: 3, cut: 0.5, music: 6 } },
      { savedSeconds: 16, cost: { join: 2, cut: 0.5, music: 4 } },
    ]);
    expect(planned.best).toMatchObject({ savedSeconds: 40, runsSeconds: 56, cost: 16 });
    expect(planned.best?.evidence.runningTime.seconds).toBe(56);
    expect(planned.front).toEqual([
      { savedSeconds: 0, runsSeconds: 96, cost: 0, cuts: [] },
      { savedSeconds: 16, runsSeconds: 80, cost: 6.5, cuts: [1] },
      { savedSeconds: 24, runsSeconds: 72, cost: 9.5, cuts: [0] },
      { savedSeconds: 40, runsSeconds: 56, cost: 16, cuts: [0, 1] },
    ]);
    expect(planned.sentence).toBe("2 cuts bring 1:36 down to 0:56, within the limit of 1:00.");
  });

  it("leaves the rest that is needed, to the second", () => {
    const rests = [need(0, 10, { seconds: 20 })];
    expect(chosen(plan([opener], { limitSeconds: 72, rests }).best)).toBeUndefined();
    expect(chosen(plan([opener], { limitSeconds: 72, rests: [need(0, 10, { seconds: 16 })] }).best)).toEqual([
      0,
    ]);
    expect(chosen(plan([opener], { limitSeconds: 72, rests: [need(0, 10, { bars: 4 })] }).best)).toEqual([0]);
    expect(
      chosen(plan([opener], { limitSeconds: 72, rests: [need(0, 10, { bars: 5 })] }).best),
    ).toBeUndefined();
    const released = rests.map((rest) => ({ ...rest, releasedBy: "matthis" }));
    const planned = plan([opener], { limitSeconds: 72, rests: released });
    expect(chosen(planned.best)).toEqual([0]);
    expect(planned.best?.evidence.rests[0]).toMatchObject({
      shortBefore: 0,
      after: { milliseconds: 16_000 },
    });
  });

  it("counts a rest that a cut over the solo joins from two tuttis", () => {
    const over = cut(8, 15, 1);
    const rests = [need(0, 10, { seconds: 40 }), need(12, 20, { seconds: 30 }, "mute")];
    expect(plan([over], { limitSeconds: 70, rests }).best).toMatchObject({
      evidence: {
        rests: [
          { before: { milliseconds: 40_000 }, after: { milliseconds: 52_000 } },
          { before: { milliseconds: 32_000 }, after: { milliseconds: 52_000 } },
        ],
      },
    });
    expect(chosen(plan([over, cut(16, 19, 0)], { limitSeconds: 60, rests }).best)).toEqual([0, 1]);
    expect(chosen(plan([over, cut(15, 19, 0)], { limitSeconds: 60, rests }).best)).toBeUndefined();
    expect(
      chosen(plan([cut(8, 15, 1), cut(16, 19, 0), cut(2, 3, 0)], { limitSeconds: 52, rests }).best),
    ).toBeUndefined();
  });

  it("does not take from a rest that is too short anyway", () => {
    const rests = [need(0, 10, { seconds: 60 })];
    expect(chosen(plan([opener, second], { limitSeconds: 80, rests }).best)).toEqual([1]);
  });

  it("keeps music between two cuts", () => {
    expect(chosen(plan([cut(0, 3, 1), cut(3, 6, 1)], { limitSeconds: 76 }).best)).toBeUndefined();
    expect(chosen(plan([cut(0, 3, 1), cut(4, 7, 1)], { limitSeconds: 76 }).best)).toEqual([0, 1]);
  });

  it("plans around the cuts that are agreed, and says which are new", () => {
    const agreed = [{ from: at(2), to: at(5) }];
    const touching = cut(5, 7, 0);
    const rests = [need(0, 10, { seconds: 20 })];
    const planned = plan([opening, touching, cut(7, 9, 1), second], { limitSeconds: 76, agreed, rests });
    expect(planned.refused).toEqual([
      { index: 0, why: "It overlaps a cut that is agreed: bars 3–5." },
      { index: 1, why: "Nothing would be played between it and a cut that is agreed: bars 3–5." },
    ]);
    expect([planned.wholeSeconds, planned.standsSeconds]).toEqual([96, 84]);
    expect(planned.best).toMatchObject({
      cuts: [{ index: 2, savedSeconds: 8 }],
      agreed: [{ cut: agreed[0], savedSeconds: 12 }],
      savedSeconds: 20,
      newlySavedSeconds: 8,
      runsSeconds: 76,
      cost: 1,
      evidence: { runningTime: { seconds: 76 }, rests: [{ after: { milliseconds: 20_000 } }] },
    });
    expect(planned.front.map(({ savedSeconds, cuts }) => [savedSeconds, cuts])).toEqual([
      [12, []],
      [20, [2]],
      [28, [3]],
      [36, [2, 3]],
    ]);
    expect(planned.sentence).toBe("1 more cut brings 1:24 down to 1:16, within the limit of 1:16.");
  });

  it("does not hold against new cuts what agreed ones took from a rest", () => {
    const options = { agreed: [{ from: at(2), to: at(8) }], rests: [need(0, 10, { seconds: 20 })] };
    expect(chosen(plan([second], { limitSeconds: 60, ...options }).best)).toEqual([0]);
    expect(plan([cut(9, 10, 0)], { limitSeconds: 70, ...options }).best).toBeNull();
  });

  it("takes agreed cuts that touch for one", () => {
    const agreed = [
      { from: at(4), to: at(6) },
      { from: at(2), to: at(4) },
    ];
    const planned = plan([second], { limitSeconds: 80, agreed });
    expect(planned.agreed).toEqual([{ cut: { from: at(2), to: at(6) }, savedSeconds: 16 }]);
    expect(planned.sentence).toBe(
      "1:20 with 1 cut agreed, within the limit of 1:20: no further cut is needed.",
    );
  });

  it("plays what is kept, and says which candidates it refused", () => {
    const score = buildScore(concerto);
    const keep = [keepBarsBefore(score, at(10), 4, "the first entry")];
    expect(keep[0]).toMatchObject({ from: at(6), to: at(10), why: "the last 4 bars before the first entry" });
    const planned = plan([opener, opening], { limitSeconds: 90, keep });
    expect(chosen(planned.best)).toEqual([1]);
    expect(planned.refused).toEqual([
      { index: 0, why: "It takes from what is kept: the last 4 bars before the first entry." },
    ]);
    expect(keepRehearsalMark(score, "C")).toMatchObject({ from: at(20), to: at(21) });
    expect(keepRehearsalMark(score, "Q")).toBeNull();
  });

  it("offers for each cut of the best set the best set without it", () => {
    const { runnersUp } = plan([opening, opener, second, cut(14, 18, 9)], { limitSeconds: 60 });
    expect(runnersUp.map(chosen)).toEqual([
      [0, 2],
      [1, 3],
    ]);
  });

  it("plans at the slow end of the range when asked", () => {
    const byNumbers = plan([opener, second], { limitSeconds: 96 });
    const careful = plan([opener, second], { limitSeconds: 96, limitPace: "slow" });
    expect([byNumbers.wholeSeconds, careful.wholeSeconds]).toEqual([96, 133.44]);
    expect([chosen(byNumbers.best), chosen(careful.best)]).toEqual([[], [0, 1]]);
  });

  it("keeps rests at the fast end of the range when asked", () => {
    const rests = [need(0, 10, { seconds: 17 })];
    expect(chosen(plan([opener], { limitSeconds: 72, rests }).best)).toBeUndefined();
    expect(chosen(plan([opener], { limitSeconds: 72, rests, restPace: "fast" }).best)).toEqual([0]);
  });

  it("describes any other set of the front in the same words", () => {
    const score = buildScore(concerto);
    const set = describePlan(score, readTempoMap(score), [opening, second], { limitSeconds: 90 }, [1]);
    expect(set).toMatchObject({ savedSeconds: 16, runsSeconds: 80, cost: 2 });
  });

  it("refuses costs, weights and limits that make no sense", () => {
    expect(() => plan([cut(0, 3, -1)], { limitSeconds: 90 })).toThrow(RangeError);
    expect(() => plan([cut(0, 3, 1)], { limitSeconds: 90, weights: { perCut: Number.NaN } })).toThrow(
      RangeError,
    );
    expect(() => plan([], { limitSeconds: -1 })).toThrow(RangeError);
    expect(() => plan([], { limitSeconds: 9, rests: [need(0, 10, { seconds: -2 })] })).toThrow(RangeError);
  });
});

describe("what stands in the way when nothing fits", () => {
  it("names the rest that lacks least, and the set that would do", () => {
    const rests = [need(0, 10, { seconds: 30 }, "long"), need(12, 20, { seconds: 20 }, "short")];
    const { best, obstacle, sentence } = plan([cut(2, 8, 1), cut(13, 17, 1)], { limitSeconds: 80, rests });
    expect(best).toBeNull();
    expect(obstacle?.rests.map(({ needId, left, shortBy }) => [needId, left, shortBy])).toEqual([
      ["short", 16, 4],
      ["long", 16, 14],
    ]);
    expect(chosen(obstacle!.rests[0]!.set)).toEqual([1]);
    expect(sentence).toBe(
      "As short as it gets is 1:36, 16 s over the limit of 1:20. One rest stands in the way (lip): the most that can stay is 16 s, 4 s less than needed.",
    );
  });

  it("counts in bars where the need does", () => {
    const { obstacle } = plan([cut(2, 8, 1)], { limitSeconds: 80, rests: [need(0, 10, { bars: 6 })] });
    expect(obstacle?.rests[0]).toMatchObject({ unit: "bars", left: 4, shortBy: 2 });
  });

  it("says so when several rests stand in the way together", () => {
    const rests = [need(0, 10, { seconds: 30 }, "a"), need(12, 20, { seconds: 30 }, "b")];
    const { obstacle, sentence } = plan([cut(2, 8, 1), cut(13, 17, 1)], { limitSeconds: 60, rests });
    expect(obstacle).toMatchObject({ rests: [], missesBySeconds: 36, missesWithoutNeedsBySeconds: -4 });
    expect(sentence).toContain("More than one of the needed rests stands in the way.");
  });

  it("says by how much even all cuts miss the limit", () => {
    const { obstacle, sentence } = plan([cut(2, 8, 1)], { limitSeconds: 60 });
    expect(obstacle).toMatchObject({ rests: [], keep: [], missesWithoutNeedsBySeconds: 12 });
    expect(sentence).toBe(
      "As short as it gets is 1:12, 12 s over the limit of 1:00. Even with no rest kept these cuts miss it by 12 s.",
    );
  });

  it("names what is kept when only that stands in the way", () => {
    const keep = [{ from: at(4), to: at(6), why: "the theme" }];
    const { obstacle, sentence } = plan([cut(2, 8, 1)], { limitSeconds: 80, keep });
    expect(obstacle?.keep.map(({ why, set }) => [why, chosen(set)])).toEqual([["the theme", [0]]]);
    expect(sentence).toContain("It could be met without what is kept: the theme.");
  });
});
