import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { planPages } from "@/lib/engrave/pdf/plan-pages";

const room = { firstTop: 200, top: 40, bottom: 800, gap: 10 };
const counts = (heights: number[]) => planPages(heights, room).map((page) => page.length);

describe("planPages", () => {
  it("fills pages evenly rather than leaving one system alone", () => {
    expect(counts(Array.from({ length: 8 }, () => 170))).toEqual([3, 4, 1]);
    expect(counts(Array.from({ length: 7 }, () => 180))).toEqual([3, 4]);
  });

  it("spreads a page that is nearly full to its foot", () => {
    const [page] = planPages([180, 180, 180], room);
    expect(page?.map(({ y }) => y)).toEqual([200, 410, 620]);
  });

  it("does not pull few systems apart", () => {
    const [page] = planPages([100, 100], room);
    expect(page?.map(({ y }) => y)).toEqual([200, 315]);
  });

  it("gives a system that is higher than a page a page", () => {
    expect(counts([900, 100])).toEqual([1, 1]);
  });

  it("places every system once, in order, inside the page and apart from the next", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 30, max: 500 }), { maxLength: 60 }), (heights) => {
        const pages = planPages(heights, room);
        expect(pages.flat().map(({ index }) => index)).toEqual(heights.map((_, index) => index));
        for (const [number, page] of pages.entries()) {
          let free = number === 0 ? room.firstTop : room.top;
          for (const { index, y } of page) {
            expect(y).toBeGreaterThanOrEqual(free);
            free = y + (heights[index] ?? 0) + room.gap - 1e-9;
          }
          expect(free - room.gap).toBeLessThanOrEqual(room.bottom);
        }
      }),
    );
  });
});
