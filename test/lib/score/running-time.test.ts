import { describe, expect, it } from "vitest";
import { leaveOut } from "@/lib/score/leave-out";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { findRunningTime, type RunningTime } from "@/lib/score/running-time";
import { sayClock } from "@/lib/score/say-clock";
import { sayOrder } from "@/lib/score/say-order";
import { readTempoMap, type TempoSettings } from "@/lib/score/tempo-map";
import { at, buildScore, type ScoreText } from "../../builders/build-score";

function run(text: ScoreText, settings?: Partial<TempoSettings>): RunningTime {
  const score = buildScore(text);
  return findRunningTime(score, findPerformedOrder(score), readTempoMap(score, settings));
}

describe("the running time", () => {
  it("is what the numbers add up to, with the range of real performances", () => {
    // Quartiles 1.09 and 1.39 of real durations against the printed metronome's, measured on 166 recordings.
    const time = run({ tempo: 60, solo: "R*25" });
    expect(time).toMatchObject({ seconds: 100, basis: "printed" });
    expect(time.low).toBeCloseTo(109, 9);
    expect(time.high).toBeCloseTo(139, 9);
    expect(time.sentence).toBe(
      "1:40 by the numbers (100 % from the tempi in the score); expect 1:49 to 2:19 on stage. Time yourselves once and the range narrows.",
    );
  });

  it("is wider where the tempo itself is assumed", () => {
    const assumed = run({ solo: '"Allegro" R*25' });
    const printed = run({ tempo: 132, solo: "R*25" });
    expect(assumed.basis).toBe("assumed");
    expect(assumed.seconds).toBeCloseTo(printed.seconds, 9);
    expect(assumed.low).toBeLessThan(printed.low);
    expect(assumed.high).toBeGreaterThan(printed.high);
  });

  it("narrows with the duo's own tempo, and more with their own timing", () => {
    const width = ({ low, high, seconds }: RunningTime) => (high - low) / seconds;
    const text: ScoreText = { tempo: 60, solo: "R*25" };
    const own = run(text, { tempi: [{ at: at(0), quartersPerMinute: 60 }] });
    const timed = run(text, { timings: [{ from: at(0), to: at(24, 4), seconds: 120 }] });
    expect(width(own)).toBeLessThan(width(run(text)));
    expect(width(timed)).toBeLessThan(width(own));
    expect([own.basis, timed.basis]).toEqual(["own", "own"]);
    expect(timed.seconds).toBeCloseTo(120, 9);
    expect(timed.sentence).toContain("100 % from your own timing");
  });

  it("is nothing for a piece without music", () => {
    expect(run({ solo: "" })).toMatchObject({ seconds: 0, low: 0, high: 0 });
  });
});

// Outside check: arithmetic by hand, bars × beats ÷ tempo.
describe("bars × beats ÷ tempo", () => {
  it.each([
    [340, "3/4", 72, "14:10"],
    [535, "4/4", 100, "21:24"],
    [211, "4/4", 84, "10:03"],
    [88, "4/4", 112, "3:09"],
  ] as const)("%i bars of %s at %i last %s", (bars, metre, tempo, duration) => {
    expect(sayClock(run({ metre, tempo, solo: `R*${bars}` }).seconds)).toBe(duration);
  });
});

// Mozart, clarinet concerto K. 622, first movement: bar numbers of the ritornelli as published, times by arithmetic
// at quarter = 120. Both end bars of a ritornello are shared with the soloist.
describe("a first movement of 359 bars of 4/4 at 120", () => {
  const score = buildScore({ tempo: 120, solo: "R*359" });
  const order = findPerformedOrder(score);
  const map = readTempoMap(score);
  const lasts = (first: number, last: number) => {
    const rest = [
      { from: at(0), to: at(first - 1) },
      { from: at(last - 1, 4), to: at(358, 4) },
    ];
    return sayClock(findRunningTime(score, leaveOut(score, order, rest), map).seconds);
  };

  it.each([
    [1, 359, "11:58"],
    [1, 56, "1:52"],
    [154, 171, "0:36"],
    [227, 250, "0:48"],
    [343, 359, "0:34"],
    [1, 52, "1:44"],
  ])("bars %i to %i last %s", (first, last, duration) => {
    expect(lasts(first, last)).toBe(duration);
  });
});

describe("saying", () => {
  it.each([
    [0, "0:00"],
    [52, "0:52"],
    [59.6, "1:00"],
    [724, "12:04"],
    [3750, "1:02:30"],
    [-8, "−0:08"],
    [-0.2, "0:00"],
  ])("%f seconds as %s", (time, said) => {
    expect(sayClock(time)).toBe(said);
  });

  it("an order in runs of bars", () => {
    const score = buildScore({ solo: "R*7 | [1. R :| [2. R ] | R*31" });
    const order = findPerformedOrder(score);
    expect(sayOrder(score, order)).toBe("1–8, 1–7, 9–40");
    const cut = leaveOut(score, order, [{ from: at(19, 2), to: at(29, 2) }]);
    expect(sayOrder(score, cut)).toBe("1–8, 1–7, 9–20, 30–40");
  });
});
