import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { clickAt, clickFrom, clickPattern, perMinuteIn } from "@/lib/practice/metronome";
import { quarters, writeQuarters } from "@/lib/score/quarters";
import { buildScore } from "@/test/builders/build-score";

const metreOf = (metre: `${number}/${number}`) => buildScore({ metre, piano: "R" }).bars[0]!.metre;
const tempo = (beat: string, perMinute: number) => ({ beat, perMinute });
/** `3+2` over 8. */
const grouped = { groups: [{ beats: [3, 2], beatType: 8 }], symbol: null };

describe("what is clicked in a bar", () => {
  test.each([
    ["4/4 in quarters", metreOf("4/4"), "1", "0! 1 2 3"],
    ["4/4 in halves", metreOf("4/4"), "2", "0! 2"],
    ["3/4", metreOf("3/4"), "1", "0! 1 2"],
    ["6/8 in dotted quarters", metreOf("6/8"), "3/2", "0! 3/2"],
    ["6/8 in eighths", metreOf("6/8"), "1/2", "0! 1/2 1 3/2 2 5/2"],
    ["5/8 in quarters, which do not divide it", metreOf("5/8"), "1", "0! 1/2 1 3/2 2"],
    ["3+2/8 in eighths", grouped, "1/2", "0! 1/2 1 3/2+ 2"],
    ["no metre", { groups: [], symbol: null }, "1", "0"],
  ])("%s", (_, metre, beat, expected) => {
    const marks = { bar: "!", group: "+", beat: "" };
    const { clicks } = clickPattern(metre, { beat });
    expect(clicks.map(({ offset, stress }) => `${writeQuarters(offset)}${marks[stress]}`).join(" ")).toBe(
      expected,
    );
  });
});

describe("metronome arithmetic", () => {
  // Seconds a beat are 60 over the beats a minute: what a metronome mark means.
  test.each([
    ["1", 60, "4/4", 4, 4],
    ["1", 120, "4/4", 3, 1.5],
    ["1", 90, "3/4", 3, 2],
    ["3/2", 60, "6/8", 5, 5],
    ["2", 66, "4/4", 11, 10],
    // An eighth is half of a quarter: 5/8 at 60 quarters a minute lasts two and a half seconds.
    ["1", 60, "5/8", 5, 2.5],
  ] as const)(
    "beat of %s, %i a minute in %s: click %i after %f s",
    (beat, perMinute, metre, index, seconds) => {
      const counted = tempo(beat, perMinute);
      expect(clickAt(clickPattern(metreOf(metre), counted), counted, index).seconds).toBe(seconds);
    },
  );

  test.each([
    ["3/2", 60, "1/2", 180, 1],
    ["1", 120, "2", 60, 1],
    ["1", 100, "3/2", 200, 3],
  ])("beats of %s, %i a minute, are in %s %i/%i", (beat, perMinute, other, num, den) => {
    const [above, below = 1] = other.split("/").map(Number);
    expect(perMinuteIn(tempo(beat, perMinute), quarters(above ?? 1, below))).toEqual({ num, den });
  });

  test("does not drift: the millionth click is where one division puts it", () => {
    const counted = tempo("1", 97);
    const { seconds, bar, inBar } = clickAt(clickPattern(metreOf("4/4"), counted), counted, 1_000_001);
    expect(seconds).toBe((60 * 1_000_001) / 97);
    expect([bar, inBar]).toEqual([250_000, 1]);
  });

  test("laws: clicks rise evenly, and the first from a moment on is found", () => {
    const metres = [metreOf("4/4"), metreOf("6/8"), metreOf("5/8"), grouped, metreOf("2/2")];
    fc.assert(
      fc.property(
        fc.constantFrom(...metres),
        fc.constantFrom("1/2", "1", "3/2", "2"),
        fc.integer({ min: 20, max: 300 }),
        fc.integer({ min: 1, max: 5000 }),
        (metre, beat, perMinute, index) => {
          const counted = tempo(beat, perMinute);
          const pattern = clickPattern(metre, counted);
          const moment = clickAt(pattern, counted, index).seconds;
          expect(moment).toBeGreaterThan(clickAt(pattern, counted, index - 1).seconds);
          expect(clickFrom(pattern, counted, moment)).toBe(index);
          expect(clickFrom(pattern, counted, moment + 0.001)).toBe(index + 1);
          const bars = pattern.clicks.length;
          const barSeconds = clickAt(pattern, counted, index + bars).seconds - moment;
          const wanted = (60 * pattern.length.num) / pattern.length.den / (perMinute * beatNumber(beat));
          expect(barSeconds).toBeCloseTo(wanted, 9);
        },
      ),
    );
  });

  test("knows no click before the first", () => {
    const counted = tempo("1", 60);
    const pattern = clickPattern(metreOf("4/4"), counted);
    expect(() => clickAt(pattern, counted, -1)).toThrow(RangeError);
    expect(clickFrom(pattern, counted, -5)).toBe(0);
  });
});

function beatNumber(beat: string): number {
  const [num = 1, den = 1] = beat.split("/").map(Number);
  return num / den;
}
