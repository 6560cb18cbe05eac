import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  layOutTimeline,
  leastWidth,
  type TimelineItem,
} from "@/app/(desk)/pieces/[pieceId]/editions/_components/lay-out-timeline";

const item = (at: string, words = "7:18, 2 cuts"): TimelineItem => ({ id: at, at, sign: 62, words });
const now = "2026-03-01T12:00:00Z";

describe("the line of days", () => {
  test("keeps the order of time and puts now between past and future", () => {
    const { above, below, nowX } = layOutTimeline(
      [item("2025-11-12T00:00:00Z"), item("2026-02-06T00:00:00Z")],
      [item("2026-03-20")],
      now,
      1366,
    );
    const [first, second] = above.map(({ x }) => x);
    expect([first, second, nowX, below[0]?.x]).toEqual(
      [first, second, nowX, below[0]?.x].toSorted((a, b) => (a ?? 0) - (b ?? 0)),
    );
  });

  test("names the months of a long time, the first and each January with the year", () => {
    const { ticks } = layOutTimeline([item("2025-11-12T00:00:00Z")], [], now, 1366);
    expect(ticks.map(({ text }) => text)).toEqual(["Dec 2025", "Jan 2026", "Feb", "Mar"]);
  });

  test("names the Mondays of a short one", () => {
    const { ticks } = layOutTimeline([item("2026-02-18T00:00:00Z")], [], now, 1366);
    expect(ticks.map(({ text }) => text)).toEqual(["16 Feb", "23 Feb", "2 Mar"]);
  });

  const day = fc
    .integer({ min: 0, max: 400 })
    .map((days) => new Date(Date.UTC(2026, 0, 1 + days)).toISOString());
  const items = fc.array(
    fc.record({ at: day, words: fc.string({ maxLength: 40 }) }).map(({ at, words }) => item(at, words)),
    { maxLength: 12 },
  );

  test("nothing overlaps, nothing leaves the drawing, and no width is lost", () => {
    fc.assert(
      fc.property(items, fc.integer({ min: 200, max: 2000 }), (some, width) => {
        const { above, width: whole } = layOutTimeline(some, [], now, width);
        expect(whole).toBe(Math.max(width, leastWidth(some)));
        const edges = above.map(({ item: { sign, words }, signX }) => ({
          left: signX - sign / 2,
          right: signX - sign / 2 + leastWidth([{ ...item(now, words), sign }]) - 18,
        }));
        for (const [index, { left, right }] of edges.entries()) {
          expect(left).toBeGreaterThanOrEqual(-1e-6);
          expect(right).toBeLessThanOrEqual(whole + 1e-6);
          const before = edges[index - 1];
          if (before) expect(left - before.right).toBeGreaterThanOrEqual(18 - 1e-6);
        }
      }),
    );
  });
});
