import { describe, expect, it } from "vitest";
import { dynamicsAt, findDynamics, levelAfter } from "@/lib/harmony/find-dynamics";
import { findLines } from "@/lib/harmony/find-lines";
import { findTexture } from "@/lib/harmony/find-texture";
import { quarters } from "@/lib/score/quarters";
import { buildScore } from "../../builders/build-score";

describe("bass and top line", () => {
  it("are the outermost notes at each beat, whatever part plays them", () => {
    const score = buildScore({
      metre: "2/4",
      solo: "g5:q r:q | c4:h",
      piano: ["e4+c5:h | e4:q g4", "c3:h | b2:q e4"],
    });
    expect(findLines(score).map(({ bass, top }) => [bass?.midi, top?.midi])).toEqual([
      [48, 79],
      [48, 72],
      [47, 64],
      [60, 67],
    ]);
    expect(findLines(score, { partIds: ["P1"] }).map(({ bass }) => bass?.midi ?? null)).toEqual([
      79,
      null,
      60,
      60,
    ]);
  });

  it("take what begins first where nothing sounds on the beat", () => {
    const [first] = findLines(buildScore({ metre: "2/4", piano: "r:e c4+e4:s d4+f4 r:q" }));
    expect([first?.bass?.midi, first?.top?.midi]).toEqual([60, 64]);
  });

  it("tell their steps, and none over a silence", () => {
    const lines = findLines(buildScore({ metre: "3/4", solo: "c5:q d5 r | c5:h." }));
    expect(lines.map(({ topStepSemitones }) => topStepSemitones)).toEqual([null, 2, null, null, 0, 0]);
  });
});

describe("texture", () => {
  it("counts onsets, beginning and held notes, and parts that sound", () => {
    const score = buildScore({ metre: "2/4", solo: "g5:h", piano: "c4+e4:e g4 c5:q" });
    const [first, second] = findTexture(score);
    expect(first).toMatchObject({
      onsetCount: 2,
      beginningNotes: 4,
      onsetsPerQuarter: 2,
      activePartIds: ["P1", "P2"],
      heldNoteIds: [],
    });
    expect(second).toMatchObject({
      onsetCount: 1,
      beginningNotes: 1,
      heldNoteIds: [score.parts[0]?.notes[0]?.id],
    });
  });

  it("tells the register, weighted by how long each note sounds", () => {
    const [first, second] = findTexture(buildScore({ metre: "2/4", solo: "c4:e. c5:s r:q" }));
    expect(first?.register).toEqual({ lowest: 60, highest: 72, centroid: 63 });
    expect(second?.register).toBeNull();
    expect(second?.activePartIds).toEqual([]);
  });

  it("tells each part's dynamics: marks hold, hairpins are ranges", () => {
    const score = buildScore({ metre: "2/4", solo: "p c5:q < c5 | c5 / f c5", piano: "c3:h | mf c3" });
    const solo = findTexture(score).map(({ dynamics }) => dynamics.get("P1"));
    expect(solo.map((part) => part?.level?.mark)).toEqual(["p", "p", "p", "f"]);
    expect(solo.map((part) => part?.hairpin?.type ?? null)).toEqual([null, "crescendo", "crescendo", null]);
    const piano = findTexture(score).map(({ dynamics }) => dynamics.get("P2")?.level?.level ?? null);
    expect(piano).toEqual([null, null, 4, 4]);
  });
});

describe("printed dynamics", () => {
  it.each([
    ["ppp", 0],
    ["p", 2],
    ["mp", 3],
    ["mf", 4],
    ["ff", 6],
    ["ffff", 8],
    ["pppp", -1],
    ["fp", 2],
    ["sfp", 2],
    ["sfpp", 1],
    ["sf", null],
    ["sfz", null],
    ["rfz", null],
    ["n", null],
  ])("%s leaves the level %s", (mark, level) => {
    expect(levelAfter(mark)).toBe(level);
  });

  it("a hairpin that nothing stops ends with the next, or with the piece", () => {
    const score = buildScore({ metre: "2/4", solo: "< c5:q c5 | > c5 c5" });
    const dynamics = findDynamics(score, score.parts[0]!);
    expect(dynamics.hairpins).toEqual([
      { from: quarters(0), to: quarters(2), type: "crescendo" },
      { from: quarters(2), to: quarters(4), type: "diminuendo" },
    ]);
    expect(dynamicsAt(dynamics, quarters(4))).toEqual({ level: null, hairpin: null });
  });
});
