import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isBlackKey } from "@/lib/hands/fingering/fingering-cost";
import { type Finger, fingers, pairSpan } from "@/lib/hands/fingering/pair-spans";
import { costOfFingering, solveFingering } from "@/lib/hands/fingering/solve-fingering";
import { costByRules, rules } from "./parncutt-rules";

/** Every fingering there is. */
function* every(length: number): Generator<Finger[]> {
  if (length === 0) yield [];
  else for (const rest of every(length - 1)) for (const finger of fingers) yield [...rest, finger];
}

/** Keys near one another, all over the keyboard, repeated, in scales and in leaps. */
const line = fc
  .tuple(
    fc.integer({ min: 30, max: 90 }),
    fc.array(
      fc.oneof(
        fc.constantFrom(-2, -1, 0, 1, 2),
        fc.integer({ min: -7, max: 7 }),
        fc.constantFrom(-19, 12, 16),
      ),
      { maxLength: 5 },
    ),
  )
  .map(([first, steps]) => {
    const keys = [first];
    for (const step of steps) keys.push((keys.at(-1) ?? first) + step);
    return keys;
  });
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
      { numRuns: 60 },
    );
  });

  test("costs what the twelve rules say, each taken by itself", () => {
    const fingered = line.chain((keys) =>
      fc.tuple(fc.constant(keys), fc.array(fc.constantFrom(...fingers), { minLength: 6, maxLength: 6 })),
    );
    fc.assert(
      fc.property(fingered, hand, ([keys, chosen], of) => {
        const sign = of === "right" ? 1 : -1;
        const byRules = costByRules({
          keys: keys.map((midi) => sign * midi),
          fingers: chosen.slice(0, keys.length),
          isBlack: (midi) => isBlackKey(sign * midi),
        });
        expect(costOfFingering(keys, of, chosen.slice(0, keys.length))).toBe(byRules);
      }),
      { numRuns: 500 },
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

// Worked by hand from the words of each rule, right hand. Source: Parncutt et al. 1997; the weights from memory of the paper.
describe("the twelve rules", () => {
  test.each([
    ["1 stretch", [60, 70], [1, 2], 4],
    ["2 small span", [60, 61], [2, 4], 4],
    ["2 small span", [60, 62], [1, 4], 3],
    ["3 large span", [60, 63], [2, 3], 2],
    ["3 large span", [60, 67], [1, 2], 2],
    ["4 position change, count", [60, 64, 76], [1, 3, 5], 1],
    ["4 position change, count", [62, 65, 72], [3, 1, 4], 2],
    ["5 position change, size", [60, 64, 76], [1, 3, 5], 3],
    ["6 weak finger", [60, 62, 64], [3, 4, 5], 2],
    ["7 three, four, five", [60, 62, 64], [3, 4, 5], 1],
    ["8 three to four", [64, 65, 64], [3, 4, 3], 1],
    ["9 four on black", [64, 66], [3, 4], 1],
    ["9 four on black", [66, 64], [4, 3], 1],
    ["10 thumb on black", [62, 63, 65], [2, 1, 2], 5],
    ["11 five on black", [62, 63, 65], [4, 5, 4], 4],
    ["12 thumb passing", [64, 65], [3, 1], 1],
    ["12 thumb passing", [64, 66], [3, 1], 3],
    ["12 thumb passing", [66, 67], [3, 1], 0],
  ] as const)("%s: keys %j with fingers %j cost %i", (rule, keys, chosen, points) => {
    const isBlack = isBlackKey;
    expect(rules[rule]?.({ keys, fingers: chosen, isBlack })).toBe(points);
    expect(costOfFingering(keys, "right", chosen)).toBe(costByRules({ keys, fingers: chosen, isBlack }));
  });
});
