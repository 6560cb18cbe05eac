import { describe, expect, test } from "vitest";
import {
  readPlanAddress,
  writePlanAddress,
} from "@/app/(desk)/pieces/[pieceId]/plan/_components/plan-address";
import { movePlan, type PlanMove } from "@/app/(desk)/pieces/[pieceId]/plan/_components/plan-state";
import { noWishes, type PlanState } from "@/app/(desk)/pieces/[pieceId]/plan/_components/wishes";

const ends = (from: number, to: number, offset = "0") => ({
  from: { barIndex: from, offset },
  to: { barIndex: to, offset: "0" },
});
const plain: PlanState = { wishes: noWishes, choice: { kind: "best" } };
const read = (text: string) => readPlanAddress(new URLSearchParams(text));

describe("the address of a plan", () => {
  const states: [string, PlanState][] = [
    ["nothing wished for", plain],
    [
      "everything wished for",
      {
        wishes: {
          ...{ resolution: "beats", keepLastBars: 6, keepRehearsal: ["A", "C&D"], keepTheme: true },
          ...{ allowsRough: true, counts: "fewer", isCareful: true },
          ...{ leftOut: [ends(8, 16), ends(40, 52, "3/2")], kept: [ends(2, 5)] },
        },
        choice: { kind: "length", saves: 23.333 },
      },
    ],
    ["another set", { wishes: { ...noWishes, counts: "shorter" }, choice: { kind: "other", index: 1 } }],
  ];

  test.each(states)("%s comes back as it was", (_, state) => {
    expect(read(writePlanAddress(state))).toEqual(state);
  });

  test("nothing stands in it while nothing is wished for", () => {
    expect(writePlanAddress(plain)).toBe("");
  });

  test.each([
    "last=0",
    "last=many",
    "counts=everything",
    "by=quavers",
    "saves=-1",
    "saves=soon",
    "other=0",
    "themes=yes",
    "out=8-16",
    "keep=~",
  ])("what it says wrongly is as if it were not there: %s", (text) => {
    expect(read(text)).toEqual(plain);
  });

  test("a wrong cut in a list leaves the others", () => {
    expect(read("out=8:0~16:0,x,9:2/4~12:0").wishes.leftOut).toEqual([ends(8, 16)]);
  });
});

describe("moving the plan", () => {
  const run = (...moves: PlanMove[]) => moves.reduce(movePlan, plain);

  test("a cut that is left out twice is left out once, and taken in again", () => {
    const out: PlanMove = { kind: "leave-out", ends: ends(8, 16) };
    expect(run(out, out).wishes.leftOut).toEqual([ends(8, 16)]);
    expect(run(out, { kind: "take-in", ends: ends(8, 16) })).toEqual(plain);
  });

  test("a length that was chosen stays while the wishes change; another set does not", () => {
    const wish: PlanMove = { kind: "wish", wishes: { keepTheme: true } };
    expect(run({ kind: "length", saves: 20 }, wish).choice).toEqual({ kind: "length", saves: 20 });
    expect(run({ kind: "other", index: 0 }, wish).choice).toEqual({ kind: "best" });
  });

  test("clearing takes back everything", () => {
    const keep: PlanMove = { kind: "keep", ends: ends(2, 5) };
    expect(run(keep, { kind: "length", saves: 9 }, { kind: "no-wishes" })).toEqual(plain);
  });
});
