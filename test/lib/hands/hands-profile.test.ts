import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { handsProfileSchema, usualHands } from "@/lib/hands/hands-profile";
import { reachOfSpan } from "@/lib/hands/reach-of-span";
import { sayInterval } from "@/lib/hands/say-interval";
import { beyondReach, stretchLoad } from "@/lib/hands/strains/stretch";

describe("hands", () => {
  test("the usual ones pass the schema", () =>
    expect(handsProfileSchema.parse(usualHands)).toEqual(usualHands));

  test("what is comfortable is not wider than what is possible", () => {
    const wrong = { ...usualHands, left: { comfortable: 16, possible: 14 } };
    expect(handsProfileSchema.safeParse(wrong).error?.issues[0]?.message).toMatch(/not wider/);
  });
});

describe("reach by the span of the hand", () => {
  test("a larger span never reaches less", () => {
    const span = fc.double({ min: 12, max: 30, noNaN: true });
    fc.assert(
      fc.property(span, span, (a, b) => {
        const [small, large] = [Math.min(a, b), Math.max(a, b)].map(reachOfSpan);
        expect(small?.possible).toBeLessThanOrEqual(large?.possible ?? 0);
        expect(small?.comfortable).toBeLessThanOrEqual(small?.possible ?? 0);
        expect(small?.comfortable).toBeLessThanOrEqual(large?.comfortable ?? 0);
      }),
    );
  });
});

describe("loads", () => {
  test("a stretch is comfortable up to the comfortable reach, broken a little beyond the possible, impossible far beyond", () => {
    const reach = { comfortable: 14, possible: 16 };
    const loads = [12, 14, 15, 16, 17, 19, 20].map((span) => stretchLoad(span, reach));
    expect(loads.map((load) => load > 1)).toEqual([false, false, true, true, true, true, true]);
    expect(loads.map((load) => load >= beyondReach)).toEqual([false, false, false, false, true, true, true]);
    expect(loads.map((load) => load >= 2)).toEqual([false, false, false, false, false, false, true]);
  });

  test("a stretch is no easier when it is wider, or the hand smaller", () => {
    const reach = fc
      .tuple(fc.integer({ min: 5, max: 24 }), fc.integer({ min: 0, max: 6 }))
      .map(([comfortable, more]) => ({ comfortable, possible: comfortable + more }));
    const more = fc.integer({ min: 0, max: 4 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40 }), reach, more, more, (span, of, wider, larger) => {
        expect(stretchLoad(span + wider, of)).toBeGreaterThanOrEqual(stretchLoad(span, of));
        const hand = {
          comfortable: of.comfortable + Math.min(wider, larger),
          possible: of.possible + larger,
        };
        expect(stretchLoad(span, hand)).toBeLessThanOrEqual(stretchLoad(span, of));
      }),
    );
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
