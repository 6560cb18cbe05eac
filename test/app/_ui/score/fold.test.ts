import { describe, expect, test } from "vitest";
import type { EngravedSystem } from "@/app/_ui/score/engraving";
import { foldRows, plainRows } from "@/app/_ui/score/fold";
import { cutOnSystem, greyPlaces, type ScoreCut } from "@/app/_ui/score/score-cut";

/** Systems of the bars given, each bar 100 units wide after 50 units of clef. */
function systemsOf(...lines: readonly (readonly number[])[]): EngravedSystem[] {
  return lines.map((bars, index) => ({
    index,
    width: 50 + bars.length * 100,
    height: 300,
    firstBarIndex: bars[0] ?? 0,
    lastBarIndex: bars.at(-1) ?? 0,
    bars: bars.map((barIndex, place) => ({
      barIndex,
      x: 50 + place * 100,
      width: 100,
      top: 40,
      bottom: 240,
      staves: [
        { top: 40, bottom: 80 },
        { top: 200, bottom: 240 },
      ],
    })),
  }));
}

const four = systemsOf([0, 1, 2, 3], [4, 5, 6, 7], [8, 9, 10, 11], [12, 13, 14, 15]);
const sayRows = (rows: ReturnType<typeof foldRows<{ id: string; firstBar: number; lastBar: number }>>) =>
  rows.map((row) => `${row.kind} ${row.firstBar}-${row.lastBar}`);

describe("folding the score", () => {
  test("two bars stay at each end; the rest is one fold line", () => {
    const rows = foldRows(four, [{ id: "a", firstBar: 2, lastBar: 13 }]);
    expect(sayRows(rows)).toEqual(["system 0-3", "fold 4-11", "system 12-15"]);
  });

  test("a fold inside systems leaves pieces of them, cropped where the fold begins and ends", () => {
    const rows = foldRows(four, [{ id: "a", firstBar: 3, lastBar: 12 }]);
    expect(sayRows(rows)).toEqual(["system 0-3", "system 4-4", "fold 5-10", "system 11-11", "system 12-15"]);
    expect(rows[1]).toMatchObject({ x: 0, width: 150 });
    expect(rows[3]).toMatchObject({ x: 350, width: 100 });
  });

  test("a fold within one system cuts it in two", () => {
    const rows = foldRows(systemsOf([0, 1, 2, 3, 4, 5, 6, 7, 8, 9]), [{ id: "a", firstBar: 1, lastBar: 8 }]);
    expect(sayRows(rows)).toEqual(["system 0-2", "fold 3-6", "system 7-9"]);
  });

  test("a cut too short to hide two bars is not folded", () => {
    expect(sayRows(foldRows(four, [{ id: "a", firstBar: 4, lastBar: 8 }]))).toEqual(sayRows(plainRows(four)));
  });

  test("every bar is on exactly one row or behind exactly one fold", () => {
    const rows = foldRows(four, [
      { id: "a", firstBar: 0, lastBar: 6 },
      { id: "b", firstBar: 9, lastBar: 15 },
    ]);
    const bars = rows.flatMap((row) =>
      Array.from({ length: row.lastBar - row.firstBar + 1 }, (_, place) => row.firstBar + place),
    );
    expect(bars).toEqual(Array.from({ length: 16 }, (_, bar) => bar));
  });
});

describe("a cut on a system", () => {
  const cut = (from: ScoreCut["from"], to: ScoreCut["to"], lastBar: number): ScoreCut => ({
    ...{ id: "a", number: 1, state: "open", ink: "so", says: null, from, to },
    firstBar: from.barIndex,
    lastBar,
  });
  const [first, second, third] = four;

  test("from bar line to bar line it covers whole bars and its end stands after the last of them", () => {
    const whole = cut({ barIndex: 2, part: 0 }, { barIndex: 6, part: 0 }, 5);
    expect(first && cutOnSystem(first, whole)).toEqual({
      boxes: [
        { x: 250, width: 100 },
        { x: 350, width: 100 },
      ],
      startX: 250,
      endX: null,
    });
    expect(second && cutOnSystem(second, whole)).toMatchObject({ startX: null, endX: 250 });
    expect(third && cutOnSystem(third, whole)).toBeNull();
  });

  test("inside bars it covers the part that is cut, and such a bar is not greyed", () => {
    const inside = cut({ barIndex: 1, part: 0.5 }, { barIndex: 3, part: 0.25 }, 3);
    expect(first && cutOnSystem(first, inside)).toEqual({
      boxes: [
        { x: 200, width: 50 },
        { x: 250, width: 100 },
        { x: 350, width: 25 },
      ],
      startX: 200,
      endX: 375,
    });
    expect(first && greyPlaces(first, [inside])).toEqual([2]);
  });
});
