import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { endsOfSpan, questionOf } from "@/app/(desk)/pieces/[pieceId]/_cuts/cut-questions";
import {
  addPick,
  findPicked,
  readPick,
  readPicks,
  type WeighPick,
  writePick,
} from "@/app/(desk)/pieces/[pieceId]/_weigh/weigh-picks";
import { sayBetterJoin, weighJoins, weighTimes } from "@/app/(desk)/pieces/[pieceId]/_weigh/weigh-rows";
import { compareGrades } from "@/lib/cuts/join/join-row";
import { bars, cutAt, proposal } from "./desk-of-concertino";

const ends = (from: number, to: number, offset = "0"): WeighPick => ({
  ...{ kind: "ends", from: { barIndex: from, offset }, to: { barIndex: to, offset } },
});

describe("what is weighed, in the address", () => {
  test("comes back as it was written", () => {
    const place = fc.record({
      barIndex: fc.nat(9_999),
      offset: fc.constantFrom("0", "1", "3/2", "7/3"),
    });
    const pick = fc.oneof(
      fc.record({ kind: fc.constant("proposal" as const), id: fc.uuid() }),
      fc.record({ kind: fc.constant("ends" as const), from: place, to: place }),
    );
    fc.assert(
      fc.property(pick, (one) => {
        expect(readPick(writePick(one))).toEqual(one);
      }),
    );
  });

  test.each([
    ["", 0],
    [null, 0],
    ["one", 1],
    ["one,two,three", 2],
    ["1:0~2:x,two", 1],
    ["1:0,two", 1],
    ["-1:0~2:0,<script>", 0],
    ["1:2/4~3:0", 0],
  ])("%j names %i", (text, count) => {
    expect(readPicks(text)).toHaveLength(count);
  });
});

describe("choosing two", () => {
  const [a, b, c] = [ends(1, 2), ends(3, 4), ends(5, 6)];
  test("the second of two gives way, and one that is chosen already changes nothing", () => {
    expect(addPick(addPick([], a), b)).toEqual([a, b]);
    expect(addPick([a, b], c)).toEqual([a, c]);
    expect(addPick([a, b], ends(1, 2))).toEqual([a, b]);
  });

  test("a proposal of another file, or one that is gone, cannot be weighed", () => {
    const desk = { bars, cuts: [proposal(), proposal({ id: "old", isStale: true })] };
    expect(findPicked(desk, { kind: "proposal", id: "c1" })?.name).toBe("Cut 2: bars 3–5");
    expect(findPicked(desk, { kind: "proposal", id: "old" })).toBeNull();
    expect(findPicked(desk, { kind: "proposal", id: "gone" })).toBeNull();
    expect(findPicked(desk, ends(1, 99_999))).toBeNull();
  });
});

describe("two cuts side by side", () => {
  const [short, long] = [cutAt(9, 17), cutAt(20, 33)];

  test("what one has over the other stands on its side only", () => {
    for (const limit of [null, 455]) {
      for (const { cells } of weighTimes([short, long], limit)) {
        expect(cells.filter(({ over }) => over !== null).length).toBeLessThanOrEqual(1);
      }
    }
    const saves = weighTimes([short, long], null).find(({ what }) => what === "Saves");
    const longer = short.weight.savedSeconds < long.weight.savedSeconds ? 1 : 0;
    expect(saves?.cells[longer].over).toMatch(/^\d:\d\d more$/);
  });

  test("only the one that keeps the limit is said to be within it", () => {
    const limit = (short.weight.runningAfter.seconds + long.weight.runningAfter.seconds) / 2;
    const row = weighTimes([short, long], limit).find(({ what }) => what === "Running time");
    const within = row?.cells.map(({ over }) => over === "within the limit");
    const isShorter = long.weight.runningAfter.seconds < short.weight.runningAfter.seconds;
    expect(within).toEqual([!isShorter, isShorter]);
  });

  test("rows stand beside each other, the better side by its grade", () => {
    const rows = weighJoins([short, long]);
    expect(rows.slice(0, 5).map(({ kind }) => kind)).toEqual([
      ...["key", "harmony", "phrase", "melody", "loudness"],
    ]);
    expect(new Set(rows.map(({ kind }) => kind)).size).toBe(rows.length);
    for (const { rows: pair, better } of rows) {
      const [a, b] = pair;
      const order = a && b ? Math.sign(compareGrades(a.grade, b.grade)) : 0;
      expect(better).toBe(order === 0 ? null : order < 0 ? 0 : 1);
    }
  });

  test("changing sides changes the sentence, not the judgement", () => {
    const swap = (text: string) =>
      text.replace(/first|second/, (word) => (word === "first" ? "second" : "first"));
    expect(sayBetterJoin([long, short])).toBe(swap(sayBetterJoin([short, long])));
    expect(sayBetterJoin([short, short])).toBe("The two joins are graded alike.");
  });
});

describe("what is asked about a cut", () => {
  const agreed = proposal({ id: "a", number: 1, state: "agreed", from: { barIndex: 9, offset: "0" } });
  const inside = { from: { barIndex: 3, offset: "0" }, to: { barIndex: 12, offset: "0" } };
  const desk = { cuts: [{ ...agreed, to: { barIndex: 17, offset: "0" } }], needs: [] };

  test("nothing while its ends stand the wrong way round or in an agreed cut", () => {
    expect(questionOf(desk, { from: inside.to, to: inside.from }, null)).toBeNull();
    expect(questionOf(desk, inside, null)).toBeNull();
  });

  test("the agreed cut of its own number, or in a comparison any, gives way", () => {
    expect(questionOf(desk, inside, 1)?.agreed).toEqual([]);
    expect(questionOf(desk, inside, null, "gives way")?.agreed).toEqual([]);
    const apart = { from: { barIndex: 20, offset: "0" }, to: { barIndex: 30, offset: "0" } };
    const question = questionOf(desk, apart, null);
    expect(question?.agreed).toHaveLength(1);
    expect(question && endsOfSpan(question.cut)).toEqual(apart);
  });
});
