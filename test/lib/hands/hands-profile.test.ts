import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { handsProfileSchema, usualHands } from "@/lib/hands/hands-profile";
import { octaveMillimetres, publishedSpans, reachOfSpan } from "@/lib/hands/reach-of-span";
import { sayInterval } from "@/lib/hands/say-interval";
import { leapSeconds } from "@/lib/hands/strains/leap";
import { stretchLoad } from "@/lib/hands/strains/stretch";

describe("hands", () => {
  test("the usual ones pass the schema", () =>
    expect(handsProfileSchema.parse(usualHands)).toEqual(usualHands));

  test("what is comfortable is not wider than what is possible", () => {
    const wrong = { ...usualHands, left: { comfortable: 16, possible: 14 } };
    expect(handsProfileSchema.safeParse(wrong).error?.issues[0]?.message).toMatch(/not wider/);
  });
});

describe("reach by the span of the hand", () => {
  // Boyle, Boyle & Booker 2015: an octave takes 6.5 inches, 8.5 inches are the threshold for a tenth; women's mean 7.9.
  test.each([
    [16.5, 12],
    [21.6, 16],
    [21.5, 14],
    [20.1, 14],
    [16.4, 11],
  ])("%f cm reach %i semitones", (centimetres, semitones) => {
    expect(reachOfSpan(centimetres).possible).toBe(semitones);
  });

  test("the published means lie on either side of a tenth", () => {
    const [, women, men] = publishedSpans.map(({ centimetres }) => reachOfSpan(centimetres).possible);
    expect([women, men]).toEqual([14, 16]);
  });

  test("a larger span never reaches less", () => {
    const span = fc.double({ min: 12, max: 30, noNaN: true });
    fc.assert(
      fc.property(span, span, (a, b) => {
        const [small, large] = [Math.min(a, b), Math.max(a, b)].map(reachOfSpan);
        expect(small?.possible).toBeLessThanOrEqual(large?.possible ?? 0);
        expect(small?.comfortable).toBeLessThanOrEqual(small?.possible ?? 0);
      }),
    );
  });

  // Key centres lie 23.5 mm apart: octave 164.5, ninth 188, tenth 211.5 mm (arithmetic).
  test("an octave is seven white keys", () => expect(octaveMillimetres).toBe(7 * 23.5));
});

describe("loads", () => {
  test("a stretch is comfortable up to the comfortable reach and impossible beyond the possible", () => {
    const reach = { comfortable: 14, possible: 16 };
    const loads = [12, 14, 15, 16, 17].map((span) => stretchLoad(span, reach));
    expect(loads.map((load) => Math.sign(Math.floor(load)))).toEqual([0, 0, 1, 1, 1]);
    expect(loads.map((load) => load >= 2)).toEqual([false, false, false, false, true]);
  });

  // Fitts's law counts bits: with a white key as the target, log2(D/W + 1) is 3 for an octave and 3.91 for two (arithmetic).
  test("a leap of an octave takes three parts of what three bits take", () => {
    expect(leapSeconds(12) / leapSeconds(24)).toBeCloseTo(3 / Math.log2(15), 12);
    expect(leapSeconds(0)).toBe(0);
  });
});

describe("intervals in words", () => {
  test.each([
    [12, "an octave"],
    [16, "a tenth"],
    [21, "a thirteenth"],
    [24, "two octaves"],
    [31, "two octaves and a fifth"],
  ])("%i semitones are %s", (semitones, name) => expect(sayInterval(semitones)).toBe(name));
});
