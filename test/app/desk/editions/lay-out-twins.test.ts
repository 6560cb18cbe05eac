import { describe, expect, test } from "vitest";
import type { Comparison, DifferenceRow, DrawnSide } from "@/app/_data/editions/editions-view";
import { layOutTwins } from "@/app/(desk)/pieces/[pieceId]/editions/_components/lay-out-twins";

function side(changes: Partial<DrawnSide> = {}): DrawnSide {
  return {
    ...{ name: 1, seconds: 100, cutCount: 0, totalSeconds: 100, gaps: [] },
    solo: [{ from: 40, to: 100 }],
    tuttis: [{ from: 0, to: 40 }],
    letters: [
      { at: 20, text: "A" },
      { at: 60, text: "B" },
    ],
    ...changes,
  };
}

function row(from: number, to: number): DifferenceRow {
  return {
    ...{ kind: "cut-added", sentence: "", secondsLonger: 0, cutNumber: null, before: null, after: null },
    ...{ bars: null, written: null },
    ...{ proposed: null, answered: null, place: { earlier: { from, to }, later: { from, to } } },
  };
}

const onScore = { stamp: "", bars: [], earlier: [], later: [], differing: [] };
const compare = (changes: Partial<Comparison>): Comparison => ({
  ...{ earlier: side(), later: side(), rows: [], declined: [], onScore },
  ...changes,
});

describe("twin strips", () => {
  const cut = compare({ later: side({ gaps: [{ from: 10, to: 30 }] }), rows: [row(10, 30)] });

  test("share one scale: the shorter one ends earlier", () => {
    const { earlier, later } = layOutTwins(cut, 500);
    expect([earlier.end, later.end]).toEqual([500, 400]);
  });

  test("close a cut to a seam and open a wedge to it", () => {
    const { later, wedges } = layOutTwins(cut, 500);
    expect(later.seams).toEqual([50]);
    expect(wedges).toEqual([{ top: { x: 50, end: 150 }, bottom: { x: 50, end: 50 } }]);
  });

  test("link the letters that both play, and the ends", () => {
    const { links } = layOutTwins(cut, 500);
    // A lies in the cut; B moves left by the twenty seconds that fall out.
    expect(links).toEqual([
      { top: 300, bottom: 200 },
      { top: 500, bottom: 400 },
    ]);
  });

  test("numbers stand at the middle of their change and keep apart", () => {
    const { marks } = layOutTwins(compare({ rows: [row(50, 52), row(51, 53), row(99, 100)] }), 500);
    expect(marks.map(({ number }) => number)).toEqual([1, 2, 3]);
    const [first, second, third] = marks.map(({ x }) => x);
    expect(first).toBe(255);
    expect((second ?? 0) - (first ?? 0)).toBeGreaterThanOrEqual(22);
    expect(third).toBeLessThanOrEqual(489);
  });

  test("the same twice lies straight under itself", () => {
    const { links, earlier, later } = layOutTwins(compare({}), 500);
    expect(links.every(({ top, bottom }) => top === bottom)).toBe(true);
    expect(later).toEqual(earlier);
  });
});
