import { describe, expect, test } from "vitest";
import { findReachedTempo } from "@/lib/practice/reached-tempo";
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
