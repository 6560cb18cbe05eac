import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { barSimilarity, bestRotation, fingerprintBars, rotateMask } from "@/lib/harmony/bar-fingerprint";
import { findParallels, type Parallel } from "@/lib/harmony/find-parallels";
import { buildScore } from "../../builders/build-score";

const say = ({ first, second, semitones }: Parallel) =>
  `${first.from}–${first.to} = ${second.from}–${second.to} +${semitones}`;

const theme = "c4:q e4 g4 c5 | d4 f4 a4 f4 | b3 d4 g4 f4";
const between = "f#4:e g#4 f#4 c#5 bb4:h | eb4:h. bb4:q";
const inF = "f4:q a4 c5 f5 | g4 bb4 d5 bb4 | e4 g4 c5 bb4";

describe("bar fingerprints", () => {
  it("mark in sixteenths of the bar what sounds", () => {
    const [print] = fingerprintBars(buildScore({ metre: "2/4", solo: "c4:q d4:e r:e" }));
    expect([...print!.slots]).toEqual([...Array(8).fill(1), ...Array(4).fill(4), 0, 0, 0, 0]);
    expect(print!.weight).toBe(12);
  });

  it("hear tied notes in every bar, and nothing in a silent one", () => {
    const prints = fingerprintBars(buildScore({ metre: "2/4", solo: "r:q c4:q~ | c4:h~ | c4:h | R" }));
    expect(prints.map(({ weight }) => weight)).toEqual([8, 16, 16, 0]);
  });

  it("turn by semitones, and twelve is none", () => {
    fc.assert(
      fc.property(fc.nat(4095), fc.nat(11), fc.nat(11), (mask, a, b) => {
        expect(rotateMask(rotateMask(mask, a), b)).toBe(rotateMask(mask, (a + b) % 12));
        expect(rotateMask(rotateMask(mask, a), (12 - a) % 12)).toBe(mask);
      }),
    );
  });

  it("are alike as far as they share what sounds", () => {
    const [a, b, c, silent] = fingerprintBars(
      buildScore({ metre: "2/4", solo: "c4:h | c4:q d4 | d4:h | R" }),
    );
    expect(barSimilarity(a!, a!, 0)).toBe(1);
    expect(barSimilarity(a!, b!, 0)).toBeCloseTo(1 / 3, 12);
    expect(barSimilarity(b!, a!, 0)).toBe(barSimilarity(a!, b!, 0));
    expect(barSimilarity(a!, c!, 0)).toBe(0);
    expect(bestRotation(a!, c!)).toEqual({ semitones: 2, similarity: 1 });
    expect(barSimilarity(silent!, silent!, 0)).toBe(0);
  });
});

describe("parallel passages", () => {
  it("are found at pitch and transposed", () => {
    const score = buildScore({ solo: `${theme} | ${between} | ${theme} | ${between} | ${inF}` });
    const found = findParallels(score).map(say);
    expect(found).toContain("0–5 = 5–10 +0");
    expect(found).toContain("0–3 = 10–13 +5");
    expect(found).toContain("5–8 = 10–13 +5");
  });

  it("are told with the likeness of each pair of bars", () => {
    const varied = theme.replace("b3 d4 g4 f4", "b3 d4 g4 a4");
    const [parallel] = findParallels(buildScore({ solo: `${theme} | ${between} | ${varied}` }));
    expect(say(parallel!)).toBe("0–3 = 5–8 +0");
    expect(parallel!.evidence.similarities).toEqual([1, 1, 0.6]);
    expect(parallel!.evidence.identicalBars).toBe(2);
    expect(parallel!.similarity).toBeCloseTo(2.6 / 3, 12);
  });

  it("do not begin or end in silence, nor match bars of other lengths", () => {
    const score = buildScore({ solo: `R | ${theme} | R | ${between} | R | ${theme} | R` });
    expect(findParallels(score).map(say)).toEqual(["1–4 = 8–11 +0"]);
    const other = buildScore({ solo: "2/4 c4:q d4 | e4 f4 | 3/4 a4:q b4 c5 | 4/4 c4:h d4 | e4 f4" });
    expect(findParallels(other)).toEqual([]);
  });

  it("need sensible bounds", () => {
    const score = buildScore({ solo: theme });
    expect(() => findParallels(score, { leastBars: 0 })).toThrow(RangeError);
    expect(() => findParallels(score, { leastSimilarity: 0 })).toThrow(RangeError);
    expect(findParallels(buildScore({ solo: "" }))).toEqual([]);
  });
});
