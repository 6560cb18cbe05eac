import { describe, expect, test } from "vitest";
import { placeGlyph, scaleGlyph } from "@/app/_ui/score/place-glyph";

const draw = (outline: string, scaleX: number, scaleY: number, x: number, y: number) => {
  const glyph = scaleGlyph(outline, scaleX, scaleY);
  return glyph && placeGlyph(glyph, x, y);
};

describe("a glyph's outline at its place", () => {
  test.each([
    ["relative lines", "M10 20l5 -5z", "M110 180l5 5z"],
    ["absolute lines", "M10 20L15 15Z", "M110 180l5 5z"],
    ["numbers after a move are lines", "m10 20 5 -5", "M110 180l5 5"],
    ["a second outline begins from the start of the first", "M10 20h5z M12 21v1", "M110 180h5zm2 -1v-1"],
    ["absolute horizontals and verticals", "M10 20H15V25", "M110 180h5v-5"],
    ["curves", "M0 0c1 2 3 4 5 6s1 1 2 2q1 1 2 2t1 1", "M100 200c1 -2 3 -4 5 -6s1 -1 2 -2q1 -1 2 -2t1 -1"],
    ["absolute curves", "M1 1C2 3 4 5 6 7S7 8 8 9", "M101 199c1 -2 3 -4 5 -6s1 -1 2 -2"],
    ["numbers without spaces between", "M10-20l.5.5", "M110 220l0.5 -0.5"],
  ])("%s", (_, outline, placed) => {
    expect(draw(outline, 1, -1, 100, 200)).toBe(placed);
  });

  test("is scaled", () => {
    expect(draw("M100 100l50 -50h10v10", 0.72, -0.5, 1000, 2000)).toBe("M1072 1950l36 25h7.2v-5");
  });

  test.each([["a0 0"], ["M1 2A1 1 0 0 1 2 2"], ["M1 2l3"], [""], ["M1 2z3"]])("none: %s", (outline) => {
    expect(scaleGlyph(outline, 1, 1)).toBeNull();
  });
});
