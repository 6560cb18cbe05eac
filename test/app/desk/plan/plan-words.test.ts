import { describe, expect, test } from "vitest";
import type { ShownSet } from "@/app/(desk)/pieces/[pieceId]/plan/_components/plan-sets";
import {
  sayAgreed,
  sayDifference,
  sayNeeded,
  sayNeedVerdict,
  sayReason,
  sayRestInTheWay,
  sayRestLeft,
  saySpare,
  sayStep,
  sayWhatIsCut,
} from "@/app/(desk)/pieces/[pieceId]/plan/_components/plan-words";
import type { CheckedNeed } from "@/lib/breath/check-rest-needs";
import type { RestNeed } from "@/lib/edition/rest-need";
import { seconds } from "@/lib/score/seconds";
import { at } from "@/test/builders/build-score";
import { candidate } from "./a-plan";

const set = (runs: number, ...cuts: ShownSet["cuts"]): ShownSet => ({
  ...{ cuts, runs, saves: 453 - runs, grade: null },
});
const [one, two, three] = [candidate(8, 16), candidate(20, 24), candidate(96, 111)];

test("the slider says length and cuts", () => {
  expect(sayStep(set(453), false)).toBe("7:33, nothing cut");
  expect(sayStep(set(453), true)).toBe("7:33, no further cut");
  expect(sayStep(set(444, one), true)).toBe("7:24, one cut");
  expect(sayStep(set(444, one, two, three), true)).toBe("7:24, three cuts");
});

test("over the list stands what is cut", () => {
  expect(sayWhatIsCut(set(453), false)).toBe("Everything is played");
  expect(sayWhatIsCut(set(453), true)).toBe("No further cut");
  expect(sayWhatIsCut(set(430, one, two), true)).toBe("Two cuts, 0:23 shorter");
});

test("what is agreed is named by its numbers", () => {
  const cut = (number: number, state: "agreed" | "open", isStale = false) => ({ number, state, isStale });
  expect(sayAgreed([cut(2, "open"), cut(3, "agreed", true)])).toBeNull();
  expect(sayAgreed([cut(4, "agreed")])).toBe("beside cut 4, which is agreed");
  expect(sayAgreed([cut(4, "agreed"), cut(1, "agreed"), cut(3, "agreed")])).toBe(
    "beside cuts 1, 3 and 4, which are agreed",
  );
});

test.each([
  [{ runs: 438, high: 500 }, false, "0:12 to spare by the numbers"],
  [{ runs: 455, high: 500 }, false, "0:05 over by the numbers"],
  [{ runs: 438, high: 452 }, true, "0:02 over at the slow end"],
  [{ runs: 438, high: null }, true, ""],
] as const)("against the limit: %j, careful %s", (time, isCareful, said) => {
  expect(saySpare(time, 450, isCareful)).toBe(said);
});

test.each([
  [set(438, three), set(438, one), "cuts 97–111, plays 9–16; as long"],
  [set(430, one, two), set(438, one), "cuts 21–24; 0:08 shorter"],
  [set(445, two), set(438, one, two), "plays 9–16; 0:07 longer"],
])("another set against the best", (other, best, said) => {
  expect(sayDifference(other, best)).toBe(said);
});

test.each([
  [450, "Two cuts bring 7:33 down to 7:18, within the limit of 7:30."],
  [420, "Two cuts bring 7:33 down to 7:18, 0:18 over the limit of 7:00."],
  [null, "Two cuts bring 7:33 down to 7:18."],
])("the reason against a limit of %s", (limitSeconds, said) => {
  expect(sayReason(set(438, one, two), { standsSeconds: 453, limitSeconds })).toBe(said);
});

describe("a needed rest", () => {
  const need: RestNeed = {
    ...{ id: "n", from: at(1), to: at(9), needs: { seconds: 20 }, why: "lip", releasedBy: null },
  };
  const inSeconds = (verdict: CheckedNeed["verdict"], after: number, shortBy: number): CheckedNeed => ({
    ...{ need, verdict, sentence: "", evidence: { need } as CheckedNeed["evidence"] },
    seconds: {
      ...{ before: seconds(44), after: seconds(after), needed: seconds(20), shortBy: seconds(shortBy) },
    },
    bars: { before: 20, after: 8, needed: null, shortBy: 0 },
  });
  const inBars: CheckedNeed = {
    ...inSeconds("short", 9, 0),
    need: { ...need, needs: { bars: 8 } },
    seconds: { before: seconds(44), after: seconds(9), needed: null, shortBy: seconds(0) },
    bars: { before: 20, after: 7, needed: 8, shortBy: 1 },
  };

  test("is never said to be longer than it is, nor to lack less than it does", () => {
    const short = inSeconds("short", 16.9, 3.1);
    expect(sayRestLeft(short)).toBe("0:16");
    expect(sayNeedVerdict(short, null)).toBe("0:04 short");
  });

  test("is counted in the unit of the need", () => {
    expect([sayRestLeft(inBars), sayNeeded(inBars.need), sayNeedVerdict(inBars, null)]).toEqual([
      "7 bars",
      "8 bars",
      "1 bar short",
    ]);
  });

  test.each([
    ["kept", null, "enough"],
    ["short anyway", null, "0:02 short, cuts or not"],
    ["released", "Matthis", "let go by Matthis"],
    ["no rest", null, "no rest is left here"],
  ] as const)("that is %s", (verdict, by, said) => {
    expect(sayNeedVerdict(inSeconds(verdict, 18, 2), by)).toBe(said);
  });

  test("in the way says what could stay and what is missing", () => {
    const rest = { needId: "n", unit: "seconds" as const, left: 17.4, shortBy: 2.6 };
    expect(sayRestInTheWay({ ...rest, set: null as never }, need, "Matthis")).toBe(
      "At most 0:17 could stay: 0:03 less than the 0:20 Matthis asked for (lip).",
    );
  });
});
