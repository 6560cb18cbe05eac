import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { measureRepetition } from "@/lib/hands/measure-repetition";

const strokes = (count: number, gap: number, from = 0) =>
  Array.from({ length: count }, (_, index) => from + index * gap);

describe("a rate of repetition", () => {
  test.each([
    [strokes(30, 1000 / 6), 6],
    [strokes(26, 200), 5],
    [strokes(40, 125), 8],
  ])("is that of even strokes", (onsets, perSecond) => {
    expect(measureRepetition(onsets)).toEqual({ kind: "measured", perSecond, strokes: onsets.length });
  });

  test("takes the keys of a chord for one stroke", () => {
    const chords = strokes(20, 200).flatMap((at) => [at, at + 9, at + 22]);
    expect(measureRepetition(chords)).toEqual({ kind: "measured", perSecond: 5, strokes: 20 });
  });

  test("does not count the rest between two tries, and takes the longer try", () => {
    const two = [...strokes(9, 100), ...strokes(20, 200, 3000)];
    expect(measureRepetition(two)).toEqual({ kind: "measured", perSecond: 5, strokes: 20 });
  });

  test.each([[[]], [[12]], [strokes(7, 150)], [strokes(12, 20)]])("is not told by few strokes", (onsets) => {
    expect(measureRepetition(onsets).kind).toBe("too few");
  });

  test("law: the order of the moments and their start do not matter; twice as fast is twice the rate", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 120, max: 160 }), { minLength: 10, maxLength: 60 }),
        fc.integer({ min: 0, max: 1e6 }),
        (gaps, start) => {
          const onsets = [start];
          for (const gap of gaps) onsets.push((onsets.at(-1) ?? 0) + gap);
          const one = measureRepetition(onsets);
          expect(measureRepetition([...onsets].reverse())).toEqual(one);
          const slower = measureRepetition(onsets.map((at) => 2 * at));
          if (one.kind !== "measured" || slower.kind !== "measured") throw new Error("too few");
          expect(Math.abs(one.perSecond - 2 * slower.perSecond)).toBeLessThanOrEqual(0.2 + 1e-9);
        },
      ),
    );
  });
});
