import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { assessBreath, assessBreathUnderCuts, type BreathOptions } from "@/lib/breath/assess-breath";
import { defaultBreathPreferences } from "@/lib/breath/breath-preferences";
import { chooseBreaths } from "@/lib/breath/suggest-breaths";
import type { CutSpan } from "@/lib/score/cut-span";
import { readTempoMap } from "@/lib/score/tempo-map";
import { at, buildScore, type ScoreText } from "../../builders/build-score";

const preferences = { comfortableSeconds: 8, restPerPlayed: 1, windowSeconds: 10 };

function assess(text: ScoreText, cuts: CutSpan[] = [], options: BreathOptions = { preferences }) {
  const score = buildScore(text);
  const report = assessBreath(score, readTempoMap(score), cuts, options);
  if (!report) throw new RangeError("nothing is played");
  return report;
}

const lasting = (report: { stretches: readonly { seconds: number }[] }) =>
  report.stretches.map(({ seconds }) => seconds);

describe("breath to breath", () => {
  it("counts from rest to rest, breath mark to breath mark, and the player's own marks", () => {
    const text: ScoreText = { tempo: 60, solo: "c5:h c5:h(breath-mark) | c5:w | c5:h r:h | c5:w" };
    expect(lasting(assess(text))).toEqual([4, 6, 4]);
    expect(assess(text).breaths.map(({ kind }) => kind)).toEqual(["printed", "rest"]);
    const marked = assess(text, [], { preferences, marks: [at(2), at(2, 2)] });
    expect(lasting(marked)).toEqual([4, 4, 2, 4]);
    expect(marked.breaths.map(({ kind }) => kind)).toEqual(["printed", "marked", "rest"]);
  });

  it("takes a rest of a quarter of a second for a breath and a shorter one not", () => {
    expect(lasting(assess({ tempo: 60, solo: "c5:7/4 r:s c5:h" }))).toEqual([1.75, 2]);
    expect(lasting(assess({ tempo: 60, solo: "c5:15/8 r:t c5:h" }))).toEqual([4]);
  });

  it("finds the longest stretch and says where", () => {
    const report = assess({ tempo: 60, solo: "c5:w | c5:w | c5:w | R | c5:w" });
    expect(report.longest).toMatchObject({ seconds: 12, from: at(0), to: at(3) });
    expect(report.sentence).toBe(
      "The longest stretch without a breath is 12 s, from bar 1 to bar 4: longer than the 8 s that are comfortable.",
    );
  });

  it("follows the tempo and the repeats", () => {
    expect(lasting(assess({ tempo: 60, solo: "|: c5:w | c5:h r:h :| q=120 c5:w" }))).toEqual([6, 6, 2]);
  });

  it("puts both sides of a cut on one breath, and a mark at the cut stays", () => {
    const text: ScoreText = { tempo: 60, solo: "c5:w | c5:w | R | c5:w | c5:w" };
    const cuts = [{ from: at(1), to: at(4) }];
    expect(lasting(assess(text, cuts))).toEqual([8]);
    expect(lasting(assess(text, cuts, { preferences, marks: [at(1)] }))).toEqual([4, 4]);
    const score = buildScore(text);
    const { before, after } = assessBreathUnderCuts(score, readTempoMap(score), cuts, { preferences });
    expect([before?.longest?.seconds, after?.longest?.seconds]).toEqual([8, 8]);
  });

  it("is nothing without a solo part", () => {
    const score = buildScore({ piano: "c3:w" });
    expect(assessBreath(score, readTempoMap(score), [])).toBeNull();
  });
});

describe("playing against resting", () => {
  it("finds the hardest window wherever it begins", () => {
    // Played in seconds 0–4, 8–14, 16–20: from 8 to 18 and from 9 to 19 eight of ten seconds are played.
    const { playToRest } = assess({ tempo: 60, solo: "c5:w | R | c5:w | c5:h r:h | c5:w | R" });
    expect(playToRest).toMatchObject({ playedSeconds: 8, restedSeconds: 2, playedPerRested: 4 });
    expect(playToRest.window).toEqual({ startSeconds: 8, endSeconds: 18 });
    expect([playToRest.firstBarLabel, playToRest.lastBarLabel]).toEqual(["3", "5"]);
  });

  it("tells exactly where more is played than rested", () => {
    // Played 0–2 and 6–12: a window of 10 from t holds 2 − t + 4 + t = 6 up to t = 2, then 6 up to t = 6.
    const { playToRest } = assess({ tempo: 60, solo: "c5:h r:h | r:h c5:h | c5:w | R | R" });
    expect(playToRest.playedSeconds).toBe(6);
    expect(playToRest.tooHard).toHaveLength(1);
    expect(playToRest.tooHard[0]?.startSeconds).toBeCloseTo(0, 6);
    // The last window with more than 5 s of playing begins a moment before 7.
    expect(playToRest.tooHard[0]?.endSeconds).toBeCloseTo(17, 6);
  });

  it("says no ratio when nothing is rested", () => {
    const { playToRest } = assess({ tempo: 60, solo: "c5:w | c5:w" });
    expect(playToRest).toMatchObject({ playedSeconds: 8, restedSeconds: 0, playedPerRested: null });
  });
});

describe("suggesting breaths", () => {
  it("has none while every stretch is comfortable", () => {
    expect(assess({ tempo: 60, solo: "c5:w | c5:w" }).suggestions).toEqual([]);
    const strings = { preferences: { ...preferences, comfortableSeconds: null } };
    expect(assess({ tempo: 60, solo: "c5:w | c5:w | c5:w | c5:w" }, [], strings).suggestions).toEqual([]);
  });

  it("divides a stretch that is too long at a long note and never inside a tie", () => {
    const { suggestions } = assess({ tempo: 60, solo: "c5:w | c5:w~ | c5:q d5:e e5:e f5:h | c5:w" });
    expect(suggestions.every(({ at: place }) => place.barIndex !== 2 || place.offset.num !== 0)).toBe(true);
    for (const { secondsBefore, secondsAfter } of suggestions) {
      expect(Math.max(secondsBefore, secondsAfter)).toBeLessThanOrEqual(12);
    }
  });

  it("prefers the start of a phrase", () => {
    const text: ScoreText = { tempo: 60, solo: "c5:w | c5:w | c5:w | c5:w" };
    const { suggestions } = assess(text, [], { preferences, phraseStarts: [2] });
    expect(suggestions).toMatchObject([
      { at: at(2), secondsBefore: 8, secondsAfter: 8, reasons: ["before a phrase"] },
    ]);
  });

  it("suggests a breath of a repeated passage once", () => {
    const { suggestions } = assess({ tempo: 60, solo: "|: c5:w | c5:w | c5:w | c5:h r:h :|" });
    expect(new Set(suggestions.map(({ afterNoteId }) => afterNoteId)).size).toBe(suggestions.length);
    expect(suggestions.length).toBeGreaterThan(0);
  });

  it("is as good as the best of all sets of places", () => {
    const place = fc.record({
      gap: fc.integer({ min: 1, max: 9 }),
      penalty: fc.integer({ min: 0, max: 30 }),
    });
    fc.assert(
      fc.property(fc.array(place, { maxLength: 9 }), fc.integer({ min: 2, max: 12 }), (gaps, comfortable) => {
        let now = 0;
        const places = gaps.map(({ gap, penalty }) => {
          now += gap;
          return { seconds: now, penalty };
        });
        const stretch = { startSeconds: 0, endSeconds: now + 3 } as Parameters<typeof chooseBreaths>[0];
        const cost = (chosen: readonly number[]) => {
          const times = [0, ...chosen.map((index) => places[index]!.seconds), now + 3];
          const excess = times
            .slice(1)
            .map((time, index) => Math.max(0, time - times[index]! - comfortable) ** 2);
          const penalty = chosen.reduce((sum, index) => sum + places[index]!.penalty, 0);
          return excess.reduce((sum, value) => sum + value, penalty);
        };
        const sets = Array.from({ length: 2 ** places.length }, (_, bits) =>
          places.flatMap((_place, index) => ((bits >> index) & 1 ? [index] : [])),
        );
        expect(cost(chooseBreaths(stretch, places, comfortable))).toBe(Math.min(...sets.map(cost)));
      }),
      { numRuns: 300 },
    );
  });
});

describe("a player's numbers to start from", () => {
  it.each([
    ["wind.flutes.flute", 10, null],
    ["wind.reed.clarinet.bflat", 15, null],
    ["brass.tuba", 4.5, 1],
    ["brass.trumpet.bflat", 15, 1],
    ["voice.soprano", 8, null],
    ["strings.violin", null, null],
    [null, null, null],
  ])("%s", (soundId, comfortableSeconds, restPerPlayed) => {
    expect(defaultBreathPreferences({ soundId })).toMatchObject({ comfortableSeconds, restPerPlayed });
  });
});
