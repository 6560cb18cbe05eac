import * as fc from "fast-check";
import { describe, expect, it, test } from "vitest";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  isEqualQuarters,
  laterOf,
  noQuarters,
  quarters,
  readQuarters,
  scaleQuarters,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";

/** Denominators that notation asks for: binary values, triplets, quintuplets, septuplets and their nesting. */
const length = fc
  .tuple(
    fc.integer({ min: -5000, max: 5000 }),
    fc.constantFrom(1, 2, 3, 4, 5, 6, 7, 8, 12, 16, 24, 35, 64, 96, 480),
  )
  .map(([num, den]) => quarters(num, den));

describe("quarters", () => {
  test.each([
    [6, 4, "3/2"],
    [-6, 4, "-3/2"],
    [6, -4, "-3/2"],
    [0, -7, "0"],
    [8, 2, "4"],
  ])("%i/%i is written %s", (num, den, written) => {
    expect(writeQuarters(quarters(num, den))).toBe(written);
  });

  it("adds a triplet eighth and a sixth of a quarter exactly", () => {
    expect(addQuarters(quarters(1, 3), quarters(1, 6))).toEqual(quarters(1, 2));
  });

  test.each([
    [1, 0],
    [0.5, 1],
    [Number.NaN, 1],
    [2 ** 53, 1],
  ])("refuses %d/%d", (num, den) => {
    expect(() => quarters(num, den)).toThrow(RangeError);
  });

  it("refuses a sum that no longer fits instead of rounding it", () => {
    const tiny = quarters(1, 2 ** 40);
    expect(() => addQuarters(tiny, quarters(1, 3 ** 20))).toThrow(RangeError);
  });

  test.each(["", "1/0", "0.5", "1/-2", " 1", "1/2/3", "٣"])("does not read %j", (text) => {
    expect(readQuarters(text)).toBeNull();
  });
});

describe("laws of quarters", () => {
  it("writing then reading gives the same length", () => {
    fc.assert(
      fc.property(length, (a) => {
        expect(readQuarters(writeQuarters(a))).toEqual(a);
      }),
    );
  });

  it("adding is commutative, associative and undone by subtracting", () => {
    fc.assert(
      fc.property(length, length, length, (a, b, c) => {
        expect(addQuarters(a, b)).toEqual(addQuarters(b, a));
        expect(addQuarters(addQuarters(a, b), c)).toEqual(addQuarters(a, addQuarters(b, c)));
        expect(subtractQuarters(addQuarters(a, b), b)).toEqual(a);
      }),
    );
  });

  it("order agrees with the sign of the difference", () => {
    fc.assert(
      fc.property(length, length, (a, b) => {
        expect(Math.sign(compareQuarters(a, b))).toBe(
          Math.sign(compareQuarters(subtractQuarters(a, b), noQuarters)),
        );
        expect(isEqualQuarters(a, b)).toBe(compareQuarters(a, b) === 0);
        expect(compareQuarters(earlierOf(a, b), laterOf(a, b))).toBeLessThanOrEqual(0);
      }),
    );
  });

  it("scaling up and down again changes nothing", () => {
    fc.assert(
      fc.property(length, fc.integer({ min: 1, max: 64 }), (a, n) => {
        expect(scaleQuarters(scaleQuarters(a, n), 1, n)).toEqual(a);
      }),
    );
  });
});
