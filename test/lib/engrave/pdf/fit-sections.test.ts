import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fitSections } from "@/lib/engrave/pdf/fit-sections";

describe("fitSections", () => {
  it("keeps pictures as they are while there is room", () => {
    expect(fitSections([100, 120], 400)).toEqual({ lineHeight: 30, pictureHeights: [100, 120], space: 8 });
  });

  it("makes all smaller before one is left out", () => {
    expect(fitSections([100, 120, 110], 400).pictureHeights).toEqual([80, 96, 88]);
  });

  it("names those that do not fit", () => {
    expect(
      fitSections(
        Array.from({ length: 8 }, () => 100),
        400,
      ).pictureHeights,
    ).toEqual([70, 70, 0, 0, 0, 0, 0, 0]);
  });

  it("never needs more room than there is, down to the smallest line", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 40, max: 200 }), { minLength: 1, maxLength: 40 }),
        fc.integer({ min: 440, max: 700 }),
        (heights, room) => {
          const { lineHeight, pictureHeights, space } = fitSections(heights, room);
          const pictures = pictureHeights.filter((height) => height > 0);
          const used =
            lineHeight * heights.length + pictures.reduce((sum, height) => sum + height + space, 0);
          expect(used).toBeLessThanOrEqual(room + 1e-6);
        },
      ),
    );
  });
});
