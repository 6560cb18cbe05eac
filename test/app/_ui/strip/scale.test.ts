import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { makeScale } from "@/app/_ui/strip/scale";

describe("the strip's scale", () => {
  test("is in proportion to time", () => {
    const scale = makeScale(600, 1200);
    expect(scale.x(0)).toBe(0);
    expect(scale.x(60)).toBe(120);
    expect(scale.x(600)).toBe(1200);
    expect(scale.secondAt(300)).toBe(150);
  });

  test("takes a moment beyond the ends to the nearest end", () => {
    const scale = makeScale(600, 1200);
    expect(scale.x(-5)).toBe(0);
    expect(scale.x(700)).toBe(1200);
    expect(scale.secondAt(-10)).toBe(0);
    expect(scale.secondAt(5000)).toBe(600);
  });

  test("as played, a closed stretch has no width and what follows moves up", () => {
    const scale = makeScale(100, 900, [{ from: 20, to: 30 }]);
    expect(scale.x(20)).toBe(200);
    expect(scale.x(25)).toBe(200);
    expect(scale.x(30)).toBe(200);
    expect(scale.x(100)).toBe(900);
    expect(scale.secondAt(200)).toBe(30);
    expect(scale.secondAt(190)).toBeCloseTo(19);
  });

  test("there and back is the same moment, outside the closed stretches", () => {
    const closed = [
      { from: 20, to: 30 },
      { from: 50, to: 64 },
    ];
    const scale = makeScale(100, 731, closed);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 100, noNaN: true }), (second) => {
        fc.pre(closed.every((gap) => second < gap.from - 0.001 || second > gap.to + 0.001));
        expect(scale.secondAt(scale.x(second))).toBeCloseTo(second, 6);
      }),
    );
  });

  test.each([
    [0, 100],
    [100, 0],
    [Number.NaN, 100],
  ])("refuses %d seconds on %d px", (total, width) => {
    expect(() => makeScale(total, width)).toThrow(RangeError);
  });
});
