import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { splitInValues } from "@/lib/musicxml/cut/retype-note";
import { addQuarters, noQuarters, quarters } from "@/lib/score/quarters";

describe("splitInValues", () => {
  it.each([
    [quarters(1), ["quarter"]],
    [quarters(3, 2), ["quarter."]],
    [quarters(7, 4), ["quarter.."]],
    [quarters(5, 2), ["half", "eighth"]],
    [quarters(5), ["whole", "quarter"]],
    [quarters(20), ["breve..", "whole."]],
  ])("writes %j as %j", (length, expected) => {
    const values = splitInValues(length) ?? [];
    const written = values.map(({ type, dots }) => type + ".".repeat(dots));
    expect(written).toEqual(expected);
  });

  it("has no value for a third of a quarter", () => {
    expect(splitInValues(quarters(1, 3))).toBeNull();
  });

  it("adds up, longest first", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2000 }), (count) => {
        const values = splitInValues(quarters(count, 32)) ?? [];
        expect(values.reduce((sum, value) => addQuarters(sum, value.length), noQuarters)).toEqual(
          quarters(count, 32),
        );
        expect(values.length).toBeGreaterThan(0);
      }),
    );
  });
});
