import { describe, expect, test } from "vitest";
import { findReachedTempo } from "@/lib/practice/reached-tempo";
import { findTempoMarks } from "@/lib/practice/tempo-marks";
import { quarters } from "@/lib/score/quarters";
import { here, logOf } from "./log-of";

const passage = { ...here, tempo: { beat: "1", perMinute: 112 } };

describe("the tempo that a passage has reached", () => {
  test.each([
    ["", "not begun", null, null, "0"],
    ["84-", "not begun", null, 84, "0"],
    ["84 96", "below tempo", 96, 96, "6/7"],
    ["96 84", "below tempo", 96, 84, "6/7"],
    ["84 96 104-", "below tempo", 96, 104, "6/7"],
    ["112", "at tempo", 112, 112, "1"],
    ["112 80", "at tempo", 112, 80, "1"],
    ["116 120-", "at tempo", 116, 120, "29/28"],
    ["112 112-", "was at tempo", 112, 112, "1"],
    ["112 104-", "was at tempo", 112, 104, "1"],
    ["84 112x", "below tempo", 84, 84, "3/4"],
  ])("after %j: %s", (log, standing, best, last, share) => {
    const reached = findReachedTempo(passage, logOf(log));
    const { num, den } = reached.share;
    expect({
      standing: reached.standing,
      best: reached.best?.tempo.perMinute ?? null,
      last: reached.last?.tempo.perMinute ?? null,
      share: den === 1 ? `${num}` : `${num}/${den}`,
    }).toEqual({ standing, best, last, share });
  });

  test("compares beats of other lengths by what they are", () => {
    const dotted = { ...here, tempo: { beat: "3/2", perMinute: 60 } };
    // 90 quarters a minute are 60 dotted ones.
    expect(findReachedTempo(dotted, logOf("90")).standing).toBe("at tempo");
    expect(findReachedTempo(dotted, logOf("89")).standing).toBe("below tempo");
  });
});

describe("marks for the strip", () => {
  const at = (fromBar: number) => ({
    ...{ fromBar, toBar: fromBar + 1, label: `bars ${fromBar + 1}–${fromBar + 2}`, why: "", difficulty: 60 },
    ...{ tempo: { beat: "1", perMinute: 112 }, comfortablePace: 0.8 },
    end: { barIndex: fromBar + 1, offset: quarters(4) },
    metre: { groups: [{ beats: [4], beatType: 4 }], symbol: null },
    weight: { factor: { num: 1, den: 1 }, reasons: [] },
  });

  test("stand over what is not at tempo, in the order of the page, with what was reached", () => {
    const log = [
      ...logOf("96", { fromBar: 2, toBar: 3 }),
      ...logOf("112", { fromBar: 8, toBar: 9 }),
      ...logOf("112 112-", { fromBar: 6, toBar: 7 }),
    ];
    expect(
      findTempoMarks([at(8), at(6), at(4), at(2)], log).map(
        ({ label, words, short }) => `${label}: ${words} ${short}`,
      ),
    ).toEqual([
      "bars 3–4: not yet at tempo: 96 of 112 96→112",
      "bars 5–6: not yet begun, 112 to reach →112",
      "bars 7–8: was at 112, did not hold since 112→112",
    ]);
  });
});
