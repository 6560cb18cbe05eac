import { describe, expect, it } from "vitest";
import { type Cadence, findCadences } from "@/lib/harmony/find-cadences";
import { findChords } from "@/lib/harmony/find-chords";
import { findLocalKeys } from "@/lib/harmony/find-local-keys";
import { writeQuarters } from "@/lib/score/quarters";
import { buildScore, type ScoreText } from "../../builders/build-score";

function cadencesOf(text: ScoreText): Cadence[] {
  const score = buildScore(text);
  return findCadences(score, findChords(score, findLocalKeys(score)));
}

/** "authentic 3:0". */
const say = (text: ScoreText) =>
  cadencesOf(text).map(({ kind, at }) => `${kind} ${at.barIndex}:${writeQuarters(at.offset)}`);

const opening = "c3+g3+e4+c5:h f3+a3+f4+c5 | g3+b3+d4+b4 c3+g3+e4+c5";

describe("cadences", () => {
  it.each([
    ["authentic", `${opening} | f3+a3+d4+a4:h g3+b3+f4+b4 | c3+g3+e4+c5:w | R`, "authentic 3:0"],
    ["half", `${opening} | c3+g3+e4+c5:h f3+a3+d4+a4 | g3+b3+d4+g4:w | R | ${opening}`, "half 3:0"],
    [
      "deceptive",
      `${opening} | f3+a3+d4+a4:h g3+b3+f4+b4 | a3+c4+e4+c5:w | f3+a3+d4+a4 | g3+b3+d4+b4`,
      "deceptive 3:0",
    ],
    ["plagal", `${opening} | c3+g3+e4+c5:w | f3+a3+f4+c5 | c3+g3+e4+c5:w | R`, "plagal 4:0"],
  ])("%s", (_name, piano, expected) => {
    expect(say({ piano })).toContain(expected);
  });

  it("are told with what speaks for them", () => {
    const piano = `${opening} | g3+c4+e4+c5:h g3+b3+f4+b4 | c3+g3+e4+c5:w | R`;
    const last = cadencesOf({ piano }).at(-1)!;
    expect(last).toMatchObject({ kind: "authentic", confidence: "clear", key: { tonic: 0, mode: "major" } });
    expect(last.evidence).toMatchObject({
      approach: { root: 7 },
      arrival: { root: 0, quality: "major" },
      approachInRootPosition: true,
      topOnRoot: true,
      atBarLine: true,
      topPauses: true,
      staysHalfABar: true,
      hasCadentialSixFour: true,
    });
  });

  it("arrive at an exact place inside a bar too", () => {
    const piano = `${opening} | f3+a3+d4+a4:q g3+b3+f4+b4 c3+g3+e4+c5:h | R | ${opening}`;
    expect(say({ piano })).toContain("authentic 2:2");
  });

  it("are none where the arrival stands on another note than its root", () => {
    const piano = `${opening} | f3+a3+d4+a4:h g3+b3+f4+b4 | e3+g3+c4+c5:w | R`;
    expect(say({ piano }).filter((text) => text.endsWith(" 3:0"))).toEqual([]);
  });

  it("are none across a silence, and none in passing", () => {
    expect(say({ piano: `${opening} | g3+b3+f4+b4:w | R | c3+g3+e4+c5:w` })).not.toContain("authentic 4:0");
    const passing = "c3+e4+c5:q g3+d4+b4 c3+e4+c5 g3+d4+b4";
    expect(
      say({ piano: `${passing} | ${passing} | ${passing}` }).filter((text) => !text.endsWith(":0")),
    ).toEqual([]);
  });
});
