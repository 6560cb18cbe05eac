import { describe, expect, test } from "vitest";
import type { SideCut } from "@/app/_data/editions/editions-view";
import type { EngravedSystem } from "@/app/_ui/score/engraving";
import {
  type ComparedRow,
  layOutScore,
  type ScorePlace,
} from "@/app/(desk)/pieces/[pieceId]/editions/_components/lay-out-score";

/** Ten systems of four bars, each bar a quarter of its system. */
const systems = Array.from({ length: 10 }, (_, index): EngravedSystem => {
  const first = index * 4;
  const bars = [0, 1, 2, 3].map((at) => ({
    ...{ barIndex: first + at, x: at * 100, width: 100 },
    ...{ top: 0, bottom: 80, staves: [] },
  }));
  return { index, width: 400, height: 100, firstBarIndex: first, lastBarIndex: first + 3, bars };
});

function cut(first: number, last: number, part = 0): SideCut {
  return {
    ...{ id: `${first}`, name: `bars ${first}–${last}`, firstBar: first, lastBar: last },
    ...{ from: { barIndex: first, part }, to: { barIndex: last + 1, part: 0 } },
  };
}

const place = (changes: Partial<ScorePlace>): ScorePlace => ({
  onScore: { earlier: [], later: [], differing: [] },
  names: { earlier: "in № 1", later: "in № 2" },
  ...{ written: [], bars: { firstBar: 5, lastBar: 6 }, isWhole: false },
  ...changes,
});

const describeRow = (row: ComparedRow) =>
  row.kind === "system"
    ? `system ${row.system.index}`
    : `${row.kind} ${row.firstBar}–${row.lastBar} (${row.count})`;
const rowsOf = (changes: Partial<ScorePlace>) => layOutScore(systems, place(changes));

describe("the systems round a difference", () => {
  test("two bars before and after it are on view", () => {
    expect(rowsOf({}).map(describeRow)).toEqual(["system 0", "system 1", "system 2"]);
    expect(rowsOf({ bars: { firstBar: 14, lastBar: 16 } }).map(describeRow)).toEqual([
      "system 3",
      "system 4",
    ]);
  });

  test("what a side lacks is folded where it stands in the other, with the bars of the print", () => {
    const [, row] = rowsOf({
      onScore: {
        earlier: [],
        later: [cut(5, 6)],
        differing: [{ firstBar: 5, lastBar: 6, playedBy: "earlier" }],
      },
    });
    if (row?.kind !== "system") throw new Error("no system");
    expect(row.later.folds).toEqual([
      { left: 0.25, width: 0.5, text: "bars 5–6 cut in № 2", isStart: true, isEnd: true },
    ]);
    expect(row.earlier.folds).toEqual([]);
    expect(row.earlier.brackets).toEqual([{ left: 0.25, width: 0.5, text: "only in № 1" }]);
    expect(row.later.brackets).toEqual([]);
  });

  test("a cut that begins inside a bar folds from there", () => {
    const [, row] = rowsOf({
      onScore: { earlier: [cut(5, 9, 0.5)], later: [], differing: [] },
    });
    if (row?.kind !== "system") throw new Error("no system");
    expect(row.earlier.folds).toMatchObject([{ left: 0.375, width: 0.625, isStart: true, isEnd: false }]);
  });

  test("a system of which a side plays nothing is one fold; of which neither does, one line for all of them", () => {
    const both = {
      earlier: [cut(4, 15)],
      later: [cut(8, 19)],
      differing: [
        { firstBar: 4, lastBar: 7, playedBy: "later" as const },
        { firstBar: 16, lastBar: 19, playedBy: "earlier" as const },
      ],
    };
    const rows = rowsOf({ onScore: both, bars: { firstBar: 4, lastBar: 19 }, isWhole: true });
    expect(rows.map(describeRow)).toEqual([
      "system 0",
      "system 1",
      "neither 8–15 (2)",
      "system 4",
      "system 5",
    ]);
    const second = rows[1];
    if (second?.kind !== "system") throw new Error("no system");
    expect([second.earlier.isFolded, second.earlier.text]).toEqual([true, "bars 4–15 cut in № 1"]);
    expect(second.later.isFolded).toBe(false);
  });

  test("of a long difference the middle is folded until it is asked for", () => {
    const long = { bars: { firstBar: 4, lastBar: 35 } };
    expect(rowsOf(long).map(describeRow)).toEqual([
      "system 0",
      "system 1",
      "system 2",
      "between 12–27 (4)",
      "system 7",
      "system 8",
      "system 9",
    ]);
    expect(rowsOf({ ...long, isWhole: true })).toHaveLength(10);
  });

  test("what is written on one side only is said in a word on either", () => {
    const written = [{ firstBar: 5, lastBar: 5, earlier: "breath", later: "no breath here" }];
    const [, row] = rowsOf({ written });
    if (row?.kind !== "system") throw new Error("no system");
    expect([row.earlier.brackets[0]?.text, row.later.brackets[0]?.text]).toEqual([
      "breath",
      "no breath here",
    ]);
  });
});
