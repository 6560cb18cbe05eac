import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Finger, fingers, pairSpan } from "@/lib/hands/fingering/pair-spans";
import { costOfFingering, solveFingering } from "@/lib/hands/fingering/solve-fingering";

/** Every fingering there is. */
function* every(length: number): Generator<Finger[]> {
  if (length === 0) yield [];
  else for (const rest of every(length - 1)) for (const finger of fingers) yield [...rest, finger];
}

const line = fc.array(fc.integer({ min: 55, max: 72 }), { minLength: 1, maxLength: 6 });
const hand = fc.constantFrom("left" as const, "right" as const);

describe("the cheapest fingering", () => {
  test("is the best of all there are", () => {
    fc.assert(
      fc.property(line, hand, (keys, of) => {
        const best = Math.min(...[...every(keys.length)].map((chosen) => costOfFingering(keys, of, chosen)));
        const found = solveFingering(keys, of);
        expect(found.cost).toBe(best);
        expect(costOfFingering(keys, of, found.fingers)).toBe(best);
      }),
      { numRuns: 40 },
    );
  });

  // The keyboard is the same in both directions around D (and around G sharp).
  test("of one hand is that of the other, mirrored at D", () => {
    fc.assert(
      fc.property(line, (keys) => {
        const mirrored = keys.map((midi) => 2 * 62 - midi);
        expect(solveFingering(mirrored, "left").cost).toBe(solveFingering(keys, "right").cost);
      }),
    );
  });

  test("an octave higher costs the same", () => {
    fc.assert(
      fc.property(line, hand, (keys, of) => {
        const higher = keys.map((midi) => midi + 12);
        expect(solveFingering(higher, of)).toEqual(solveFingering(keys, of));
      }),
    );
  });

  test("five white keys in a row take the five fingers in order", () => {
    expect(solveFingering([60, 62, 64, 65, 67], "right").fingers).toEqual([1, 2, 3, 4, 5]);
    expect(solveFingering([67, 65, 64, 62, 60], "left").fingers).toEqual([1, 2, 3, 4, 5]);
  });

  test("the thumb keeps off a black key between white ones", () => {
    const { fingers: chosen } = solveFingering([62, 66, 67], "right");
    expect(chosen[1]).not.toBe(1);
  });
});

describe("spans of two fingers", () => {
  test("each is wider the less relaxed it is", () => {
    for (const from of fingers) {
      for (const to of fingers) {
        const span = pairSpan(from, to);
        if (!span) continue;
        const row = Object.values(span) as number[];
        expect(row).toEqual(row.toSorted((a, b) => a - b));
      }
    }
  });
});
