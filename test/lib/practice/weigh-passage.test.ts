import { describe, expect, test } from "vitest";
import { needOf, orderPassages, sayNeed } from "@/lib/practice/order-passages";
import type { PracticePassage } from "@/lib/practice/practice-passage";
import { readDependence, weighPassage } from "@/lib/practice/weigh-passage";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { quarters } from "@/lib/score/quarters";
import { buildScore } from "@/test/builders/build-score";

const figure = "c4:s d4 e4 f4 g4 a4 b4 c5";
const other = ["g3:e b3 d4 f4", "a3:e c#4 e4 g4", "f3:e ab3 b3 d4", "e3:e g#3 b3 d4"];
/** Bars of 2/4: what the soloist and the pianist have in each. */
const score = (bars: readonly (readonly [solo: string, piano: string])[]) =>
  buildScore({
    metre: "2/4",
    tempo: 60,
    solo: bars.map(([solo]) => solo).join(" | "),
    piano: bars.map(([, piano]) => piano).join(" | "),
  });

const weigh = (bars: readonly (readonly [string, string])[], fromBar: number, toBar = fromBar) => {
  const music = score(bars);
  const weight = weighPassage(readDependence(music, findPerformedOrder(music)), { fromBar, toBar });
  return {
    factor: weight.factor.num / weight.factor.den,
    reasons: Object.fromEntries(
      weight.reasons.map(({ kind, words, factor }) => [kind, `${words} ${factor.num}/${factor.den}`]),
    ),
  };
};
const played = (piano: string) => ["c5:h", piano] as const;
const alone = (piano: string) => ["R", piano] as const;

describe("how much the piece depends on a passage", () => {
  test("a passage that nothing speaks for weighs 1", () => {
    expect(weigh([played(figure), ...other.map(played)], 0)).toEqual({ factor: 1, reasons: {} });
  });

  test("one that comes again note for note, and one that comes again on another degree", () => {
    const bars = [figure, ...other, figure].map(played);
    expect(weigh(bars, 0)).toEqual({
      factor: 1.25,
      reasons: { "comes again": "it comes again note for note in bar 6 5/4" },
    });
    // A tone higher.
    const raised = [figure, ...other, "d4:s e4 f#4 g4 a4 b4 c#5 d5"].map(played);
    expect(weigh(raised, 0)).toEqual({
      factor: 1.125,
      reasons: { "comes again": "it comes again nearly in bar 6 9/8" },
    });
  });

  test("a repeat that is played counts as coming again", () => {
    const [first, ...rest] = [figure, ...other].map((bar, index) => (index === 1 ? `${bar} :|` : bar));
    const bars = [first ?? "", ...rest];
    const music = buildScore({
      metre: "2/4",
      solo: "c5:h",
      piano: bars.join(" | ").replace(":| |", ":|"),
    });
    const { reasons } = weighPassage(readDependence(music, findPerformedOrder(music)), {
      fromBar: 0,
      toBar: 0,
    });
    expect(reasons.map(({ words }) => words)).toEqual(["it is repeated"]);
  });

  test("more than four returns give no more", () => {
    const bars = Array.from({ length: 9 }, (_, index) =>
      index % 2 === 0 ? figure : (other[index >> 1] ?? ""),
    ).map(played);
    const more = [...bars, played(other[1] ?? ""), played(figure), played(other[2] ?? ""), played(figure)];
    expect(weigh(bars, 0).factor).toBe(2);
    expect(weigh(more, 0).factor).toBe(2);
  });

  test("where the piano is alone", () => {
    expect(weigh([alone(figure), ...other.map(played)], 0).reasons).toEqual({
      exposed: "the piano is alone throughout 3/2",
    });
    const third = [played(figure), played(other[0] ?? ""), alone(other[1] ?? ""), played(other[2] ?? "")];
    expect(weigh(third, 0, 2).reasons).toEqual({ exposed: "the piano is alone in 1 of its 3 bars 5/4" });
    // A note that the soloist holds from the bar before is not silence.
    const held = [["c5:h~", figure] as const, ["c5:h", other[0] ?? ""] as const];
    expect(weigh(held, 1).reasons).toEqual({});
  });

  test("a long one, and one on the last page", () => {
    const bars = Array.from({ length: 16 }, (_, index) =>
      played(`${"cdefgab"[index % 7]}${3 + (index % 3)}:h`),
    );
    expect(weigh(bars, 0, 3).reasons.long).toBe("it is 4 bars long 5/4");
    expect(weigh(bars, 0, 7).reasons.long).toBe("it is 8 bars long 3/2");
    expect(weigh(bars, 7).reasons["last page"]).toBeUndefined();
    expect(weigh(bars, 8).reasons["last page"]).toBe("it is among the last 8 bars 5/4");
    expect(weigh(bars.slice(0, 15), 14).reasons["last page"]).toBeUndefined();
  });
});

describe("the order of passages", () => {
  const passage = (fromBar: number, difficulty: number, num: number, den = 1): PracticePassage => ({
    ...{ fromBar, toBar: fromBar, label: `bar ${fromBar + 1}`, why: "", difficulty, comfortablePace: 0.8 },
    end: { barIndex: fromBar, offset: quarters(4) },
    tempo: { beat: "1", perMinute: 96 },
    metre: { groups: [{ beats: [4], beatType: 4 }], symbol: null },
    weight: {
      factor: { num, den },
      reasons:
        num === den
          ? []
          : [{ kind: "exposed", factor: { num, den }, words: "the piano is alone throughout" }],
    },
  });

  test("is by difficulty times weight, exactly; equals stand as on the page", () => {
    const passages = [passage(3, 60, 1), passage(9, 50, 3, 2), passage(1, 60, 1), passage(0, 40, 3, 2)];
    expect(orderPassages(passages).map(({ fromBar }) => fromBar)).toEqual([9, 0, 1, 3]);
    expect(needOf(passages[1]!)).toEqual({ num: 75, den: 1 });
  });

  test("is told with what it was computed from", () => {
    expect(sayNeed(passage(0, 50, 3, 2))).toBe("difficulty 50 of 100 × 1.5 (the piano is alone throughout)");
    expect(sayNeed(passage(0, 50, 1))).toBe("difficulty 50 of 100");
  });
});
