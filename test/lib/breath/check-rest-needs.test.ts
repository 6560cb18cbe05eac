import { describe, expect, it } from "vitest";
import { checkRestNeeds } from "@/lib/breath/check-rest-needs";
import { findRestsUnderCuts } from "@/lib/breath/find-rests";
import type { RestNeed } from "@/lib/edition/rest-need";
import type { CutSpan } from "@/lib/score/cut-span";
import { readTempoMap } from "@/lib/score/tempo-map";
import { at, buildScore, type ScoreText } from "../../builders/build-score";

const piano = (bars: number) => Array.from({ length: bars }, () => "c3:w").join(" | ");
const concerto: ScoreText = { tempo: 60, solo: "c5:w | R*10 | d5:w | R*4 | e5:w | R", piano: piano(18) };

const need = (needs: RestNeed["needs"], from = at(1), to = at(11)): RestNeed => {
  return { id: "n", from, to, needs, why: "lip", releasedBy: null };
};

function check(rest: RestNeed, cuts: CutSpan[] = [], text: ScoreText = concerto) {
  const score = buildScore(text);
  const [checked] = checkRestNeeds(score, readTempoMap(score), cuts, [rest]);
  if (!checked) throw new RangeError("no need");
  return checked;
}

describe("checking needed rests", () => {
  it("tells seconds before and after a cut, what is needed and what is missing", () => {
    const checked = check(need({ seconds: 20 }), [{ from: at(3), to: at(9) }]);
    expect(checked.seconds).toEqual({ before: 40, after: 16, needed: 20, shortBy: 4 });
    expect(checked.bars).toEqual({ before: 10, after: 4, needed: null, shortBy: 0 });
    expect(checked.verdict).toBe("short");
    expect(checked.sentence).toBe(
      "Before bar 12: 40 s of rest, 16 s with the cuts; 20 s needed (lip): 4 s short.",
    );
  });

  it("says enough to the second", () => {
    const checked = check(need({ seconds: 16 }), [{ from: at(3), to: at(9) }]);
    expect([checked.verdict, checked.sentence]).toEqual([
      "kept",
      "Before bar 12: 40 s of rest, 16 s with the cuts; 16 s needed (lip): enough.",
    ]);
    expect(check(need({ seconds: 40 })).sentence).toBe(
      "Before bar 12: 40 s of rest; 40 s needed (lip): enough.",
    );
  });

  it("counts bars as players do: half a bar and half a bar are one", () => {
    const checked = check(need({ bars: 5 }), [{ from: at(3, 2), to: at(9, 2) }]);
    expect(checked.bars).toEqual({ before: 10, after: 4, needed: 5, shortBy: 1 });
    expect(checked.sentence).toBe(
      "Before bar 12: 10 bars of rest, 4 bars with the cuts; 5 bars needed (lip): 1 bar short.",
    );
  });

  it("joins two rests when the solo between them is cut", () => {
    const cuts = [{ from: at(6), to: at(14) }];
    expect(check(need({ seconds: 20 }), cuts).seconds).toMatchObject({ before: 40, after: 28 });
    expect(check(need({ seconds: 20 }, at(12), at(16)), cuts).seconds).toMatchObject({
      before: 16,
      after: 28,
    });
  });

  it("has nothing left when the rest is cut from solo to solo", () => {
    expect(check(need({ seconds: 5 }), [{ from: at(0, 2), to: at(11) }])).toMatchObject({
      verdict: "short",
      seconds: { before: 40, after: 0, shortBy: 5 },
    });
  });

  it("hears the end of a note whose beginning is cut as silence", () => {
    expect(check(need({ seconds: 5 }), [{ from: at(9), to: at(11, 2) }]).seconds.after).toBe(32 + 2 + 16);
  });

  it("tells a rest that is too short anyway from one that a cut spoils", () => {
    expect(check(need({ seconds: 50 }))).toMatchObject({ verdict: "short anyway", seconds: { shortBy: 10 } });
    expect(check(need({ seconds: 50 }), [{ from: at(3), to: at(4) }]).verdict).toBe("short");
  });

  it("lets a released need go, and says where there is no rest", () => {
    const released = { ...need({ seconds: 60 }), releasedBy: "matthis" };
    expect(check(released)).toMatchObject({ verdict: "released", seconds: { shortBy: 20 } });
    expect(
      check(need({ seconds: 5 }, at(1), at(2)), [], { tempo: 60, solo: "c5:w | d5:w | e5:w" }),
    ).toMatchObject({
      verdict: "no rest",
      sentence: "The soloist does not rest at bar 2: the need (lip) has no rest to lie in.",
    });
  });

  it("takes the shorter of two times that a rest is played", () => {
    // The second time the rest goes on behind the repeat; the first time the entry of bar 1 ends it.
    const text: ScoreText = { tempo: 60, solo: "|: c5:w | R*2 :| R*2 | c5:w", piano: piano(6) };
    const checked = check(need({ seconds: 10 }, at(1), at(3)), [], text);
    expect(checked).toMatchObject({ verdict: "short anyway", seconds: { before: 8, shortBy: 2 } });
    expect(checked.evidence.times).toBe(2);
  });

  it("lists every rest with what cuts leave of it", () => {
    const score = buildScore(concerto);
    const rests = findRestsUnderCuts(score, readTempoMap(score), [{ from: at(12), to: at(15) }], 5);
    expect(
      rests.map(({ from, to, seconds }) => [from.barIndex, to.barIndex, seconds.before, seconds.after]),
    ).toEqual([
      [1, 11, 40, 40],
      [12, 16, 16, 4],
    ]);
  });

  it("refuses a need outside the piece or of no amount", () => {
    expect(() => check(need({ seconds: 5 }, at(40), at(41)))).toThrow(RangeError);
    expect(() => check(need({ seconds: Number.NaN }))).toThrow(RangeError);
  });
});
