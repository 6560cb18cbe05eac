import { describe, expect, it } from "vitest";
import { placeSystems } from "@/lib/engrave/pdf/place-systems";

const room = { firstTop: 200, top: 40, bottom: 800, gap: 10 };
const ys = (heights: number[], counts: number[]) =>
  placeSystems(heights, counts, room).map((page) => page.map(({ y }) => y));

describe("placeSystems", () => {
  it("spreads a page that is nearly full to its foot", () => {
    expect(ys([180, 180, 180], [3])).toEqual([[200, 410, 620]]);
  });

  it("does not pull few systems far apart", () => {
    expect(ys([100, 100], [2])).toEqual([[200, 370]]);
  });

  it("starts page 1 under the title, the others at the top", () => {
    const pages = placeSystems([900, 100, 300, 300], [1, 1, 2], room);
    expect(pages.map((page) => page.map(({ index }) => index))).toEqual([[0], [1], [2, 3]]);
    expect(pages.map(([first]) => first?.y)).toEqual([200, 40, 40]);
  });
});
