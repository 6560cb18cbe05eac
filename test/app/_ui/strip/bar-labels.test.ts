import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { placeBarLabels, placeBarTicks } from "@/app/_ui/strip/bar-labels";
import { makeScale } from "@/app/_ui/strip/scale";
import type { StripBar } from "@/app/_ui/strip/strip-piece";

/** Bars of the lengths given, numbered from 1. */
function barsOf(lengths: readonly number[]): StripBar[] {
  let at = 0;
  return lengths.map((length, barIndex) => {
    const bar = { barIndex, label: `${barIndex + 1}`, from: at, to: at + length };
    at = bar.to;
    return bar;
  });
}

const total = (bars: readonly StripBar[]) => bars.at(-1)?.to ?? 0;

describe("bar numbers on the strip", () => {
  test("214 even bars on 986 px: every 10th, because 5 bars are only 23 px", () => {
    const bars = barsOf(Array(214).fill(3.5));
    const texts = placeBarLabels(bars, makeScale(total(bars), 986)).map((label) => label.text);
    expect(texts.slice(0, 5)).toEqual(["1", "10", "20", "30", "40"]);
  });

  test("a slow section has finer numbers than a fast one beside it", () => {
    const bars = barsOf([...Array(100).fill(2), ...Array(50).fill(9)]);
    const texts = placeBarLabels(bars, makeScale(total(bars), 650)).map((label) => label.text);
    expect(texts).toContain("105");
    expect(texts).toContain("115");
    expect(texts).not.toContain("25");
  });

  test("no two are closer than 34 px, whatever the bars", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.5, max: 12, noNaN: true }), { minLength: 1, maxLength: 300 }),
        fc.integer({ min: 200, max: 2400 }),
        (lengths, width) => {
          const bars = barsOf(lengths);
          const labels = placeBarLabels(bars, makeScale(total(bars), width));
          expect(labels.length).toBeGreaterThan(0);
          for (const [index, label] of labels.entries()) {
            const before = labels[index - 1];
            if (before) expect(label.x - before.x).toBeGreaterThanOrEqual(34);
          }
        },
      ),
    );
  });

  test("printed labels that are no numbers are left alone", () => {
    const bars = barsOf(Array(30).fill(4)).map((bar) => (bar.barIndex === 9 ? { ...bar, label: "X1" } : bar));
    expect(placeBarLabels(bars, makeScale(total(bars), 900)).map((label) => label.text)).not.toContain("X1");
  });

  test("every bar has a tick where there is room, every fifth where there is less", () => {
    const bars = barsOf(Array(100).fill(4));
    expect(placeBarTicks(bars, [], makeScale(400, 1000))).toHaveLength(100);
    expect(placeBarTicks(bars, [], makeScale(400, 200))).toHaveLength(21);
  });
});
