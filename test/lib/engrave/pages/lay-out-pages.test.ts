import { describe, expect, it } from "vitest";
import type { TurnMoment } from "@/lib/engrave/pages/assess-turn";
import { layOutPages, type PageLayoutInput } from "@/lib/engrave/pages/lay-out-pages";
import { singlePages } from "@/lib/engrave/pages/paging";
import type { EngravedSystem } from "@/lib/engrave/screen-engraving";

/** An engraver that sets four bars of equal width in a line 1,000 wide and 200 high unless it is told otherwise. */
function engraver(barCount: number) {
  const asked: (readonly number[] | null)[] = [];
  const engrave = (lineBreaks: readonly number[] | null): EngravedSystem[] => {
    asked.push(lineBreaks);
    const own = Array.from({ length: Math.ceil(barCount / 4) - 1 }, (_, index) => 4 * (index + 1));
    const starts = [0, ...(lineBreaks ?? own)];
    return starts.map((first, index) => systemOf(index, first, (starts[index + 1] ?? barCount) - 1));
  };
  return { asked, engrave };
}

function systemOf(index: number, firstBarIndex: number, lastBarIndex: number): EngravedSystem {
  const count = lastBarIndex - firstBarIndex + 1;
  const bars = Array.from({ length: count }, (_, place) => ({
    barIndex: firstBarIndex + place,
    x: (1000 * place) / count,
    width: 1000 / count,
    top: 0,
    bottom: 8,
    staves: [{ top: 0, bottom: 8 }],
  }));
  return { index, width: 1000, height: 200, firstBarIndex, lastBarIndex, bars, svg: "" };
}

const turn = (freeSeconds: number): TurnMoment => ({
  atSeconds: 0,
  direction: "on",
  hands: [],
  freeSeconds,
  freeHand: null,
  isAfterHold: false,
  silenceAfter: 0,
  cost: freeSeconds >= 2 ? 0 : 100,
});

/** 28 bars, four lines on a page; a hand is free before the bars given. */
function layOut(freeBars: readonly number[], more: Partial<PageLayoutInput> = {}) {
  const { asked, engrave } = engraver(28);
  const layout = layOutPages({
    engrave,
    heightOf: ({ height }) => height,
    room: { firstTop: 0, top: 0, bottom: 830, gap: 10 },
    paging: singlePages,
    turnsBefore: (bar) => [turn(freeBars.includes(bar) ? 3 : 0)],
    pinnedBars: [],
    wantedBars: [],
    ...more,
  });
  const turned = layout.turns.map(({ pageIndex, barIndex }) => `${pageIndex}: ${barIndex}`);
  return { layout, asked, turned };
}

describe("layOutPages", () => {
  it("keeps the engraver's lines where a page can end with one of them", () => {
    const { layout, asked, turned } = layOut([12]);
    expect(asked).toEqual([null]);
    expect(turned).toContain("0: 12");
    expect(layout.counts.reduce((sum, count) => sum + count, 0)).toBe(7);
  });

  it("has the engraver's lines drawn whole when they stand and were only sketched", () => {
    const isSketch = () => true;
    const { layout, asked } = layOut([12], { isSketch });
    expect(asked).toEqual([null, [4, 8, 12, 16, 20, 24]]);
    expect(layout.systems).toHaveLength(7);
    // Other lines are whole anyway.
    expect(layOut([14], { isSketch }).asked).toHaveLength(2);
  });

  it("chooses the lines when a hand is free only inside one", () => {
    const { layout, asked, turned } = layOut([14]);
    expect(asked).toHaveLength(2);
    expect(asked[1]).toContain(14);
    expect(turned).toEqual(["0: 14"]);
    expect(layout.turns[0]?.moments[0]?.freeSeconds).toBe(3);
    // Nothing is lost: every bar once, in order.
    const bars = layout.systems.flatMap((system) => system.bars.map(({ barIndex }) => barIndex));
    expect(bars).toEqual(Array.from({ length: 28 }, (_, bar) => bar));
  });

  it("begins a page with a pinned bar inside a line, and turns there", () => {
    const { layout, turned } = layOut([], { pinnedBars: [6] });
    expect(turned[0]).toBe("0: 6");
    expect(layout.systems.some(({ firstBarIndex }) => firstBarIndex === 6)).toBe(true);
  });

  it("keeps full pages when no turn is better than another", () => {
    const { layout, turned } = layOut([]);
    expect(turned).toHaveLength(layout.counts.length - 1);
    expect(layout.counts).toEqual([4, 3]);
  });

  it("leaves the engraver's lines alone for a small gain", () => {
    const turnsBefore = (bar: number) => [{ ...turn(0), cost: bar === 14 ? 92 : 100 }];
    const { layout, asked, turned } = layOut([], { turnsBefore });
    expect(asked).toHaveLength(2);
    expect(layout.systems).toHaveLength(7);
    expect(turned).toEqual(["0: 16"]);
  });

  it("leaves words room that reach over the end of the line that their bar ends", () => {
    const barsBefore = (signs: number) => {
      const { asked } = layOut([14], { signsAt: (bar) => (bar === 13 ? signs : 0) });
      const breaks = asked[1] ?? [];
      return 14 - (breaks[breaks.indexOf(14) - 1] ?? Number.NaN);
    };
    expect(barsBefore(0)).toBeGreaterThan(2);
    // A staff space is two units of these pictures: the words are as wide as two bars and a half.
    expect(barsBefore(400)).toBe(2);
  });

  it("refuses a pin where no bar is drawn", () => {
    expect(() => layOut([], { pinnedBars: [99] })).toThrow(RangeError);
  });
});
