import { describe, expect, it } from "vitest";
import { weighCut } from "@/lib/cuts/weigh-cut";
import type { CutSpan } from "@/lib/score/cut-span";
import { readTempoMap } from "@/lib/score/tempo-map";
import { at, buildScore, type ScoreText } from "../../builders/build-score";

const piano = (bars: number) => Array.from({ length: bars }, () => "c3:w").join(" | ");
const concerto: ScoreText = { tempo: 60, solo: "R*8 | c5:w | R*10 | [B] d5:w | R*2", piano: piano(22) };

function weigh(cut: CutSpan, agreed: CutSpan[] = [], text: ScoreText = concerto) {
  const score = buildScore(text);
  return weighCut(score, readTempoMap(score), agreed, cut);
}

describe("weighing a cut", () => {
  it("tells bars, time saved and the running time with and without", () => {
    const weight = weigh({ from: at(10), to: at(16) });
    expect(weight).toMatchObject({ barCount: 6, savedSeconds: 24, soloNotesLost: [] });
    expect([weight.runningBefore.seconds, weight.runningAfter.seconds]).toEqual([88, 64]);
  });

  it("counts the pieces of a bar at both ends together", () => {
    expect(weigh({ from: at(10, 2), to: at(16, 2) }).barCount).toBe(6);
    expect(weigh({ from: at(10, 1), to: at(16, 3) }).barCount).toBe(6);
    expect(weigh({ from: at(10, 1), to: at(10, 3) }).barCount).toBe(0);
  });

  it("tells the soloist's rest before and after, and the entry it leads to", () => {
    expect(weigh({ from: at(10), to: at(16) }).rest).toEqual({
      tuttiFrom: at(9),
      tuttiTo: at(19),
      beforeSeconds: 40,
      afterSeconds: 16,
      nextEntryLabel: "B",
    });
    expect(weigh({ from: at(0), to: at(6) }).rest).toMatchObject({
      beforeSeconds: 32,
      afterSeconds: 8,
      nextEntryLabel: "bar 9",
    });
    expect(weigh({ from: at(20), to: at(21, 4) }).rest).toMatchObject({
      beforeSeconds: 8,
      afterSeconds: 0,
      nextEntryLabel: null,
    });
  });

  it("counts from what is agreed already", () => {
    const weight = weigh({ from: at(10), to: at(12) }, [{ from: at(13), to: at(18) }]);
    expect(weight).toMatchObject({ savedSeconds: 8, rest: { beforeSeconds: 20, afterSeconds: 12 } });
  });

  it("finds what is left of the rest beside a cut that it meets", () => {
    const beside = [{ from: at(3), to: at(6) }];
    expect(weigh({ from: at(0), to: at(3) }, beside).rest).toMatchObject({
      ...{ beforeSeconds: 20, afterSeconds: 8, nextEntryLabel: "bar 9" },
    });
    expect(weigh({ from: at(12), to: at(15) }, [{ from: at(15), to: at(17) }]).rest).toMatchObject({
      ...{ beforeSeconds: 32, afterSeconds: 20, nextEntryLabel: "B" },
    });
    expect(weigh({ from: at(10), to: at(12) }, [{ from: at(9), to: at(13) }]).savedSeconds).toBe(0);
  });

  it("names the solo notes that would be lost, and no rest where the soloist plays on", () => {
    const played: ScoreText = { tempo: 60, solo: "c5:w | d5:h e5:h | g4:w(cue) | f5:w", piano: piano(4) };
    expect(weigh({ from: at(1), to: at(3) }, [], played).soloNotesLost).toEqual(["n0-1-0", "n0-1-1"]);
    const dense: ScoreText = { tempo: 60, solo: "c5:w | d5:w | e5:w", piano: piano(3) };
    expect(weigh({ from: at(1), to: at(2) }, [], dense).rest).toBeNull();
    expect(weigh({ from: at(1), to: at(2) }, [], { tempo: 60, piano: piano(3) }).rest).toBeNull();
  });

  it("saves a repeated bar each time", () => {
    const weight = weigh({ from: at(2), to: at(3) }, [], {
      tempo: 60,
      solo: "R |: R*3 :| R",
      piano: piano(5),
    });
    expect(weight).toMatchObject({
      barCount: 1,
      savedSeconds: 8,
      evidence: { passes: 2, performedQuarters: "8" },
    });
  });

  it("refuses a cut outside the piece", () => {
    expect(() => weigh({ from: at(10), to: at(40) })).toThrow(RangeError);
  });
});
