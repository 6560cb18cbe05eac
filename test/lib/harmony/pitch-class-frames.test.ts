import { describe, expect, it } from "vitest";
import { cutIntoBeats, frameIndexAt } from "@/lib/harmony/frames";
import { type FrameOptions, pitchClassesPerQuarter } from "@/lib/harmony/pitch-class-frames";
import { findSoundingNotes } from "@/lib/harmony/sounding-notes";
import { quarters, writeQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { buildScore } from "../../builders/build-score";

/** "0:4 C½ …": bar index and offset, then pitch classes with the length for which each sounds. */
function say(score: Score, options: FrameOptions = {}): string[] {
  const names = ["C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"];
  return pitchClassesPerQuarter(score, options).map(({ at, mask, lengths }) => {
    const sounding = lengths.flatMap((length, pitchClass) => {
      expect((mask >> pitchClass) & 1).toBe(length.num > 0 ? 1 : 0);
      return length.num > 0 ? [`${names[pitchClass]}=${writeQuarters(length)}`] : [];
    });
    return `${at.barIndex}:${writeQuarters(at.offset)} ${sounding.join(" ")}`.trim();
  });
}

describe("pitch classes per quarter note", () => {
  it("are told with the exact time for which each sounds, in whatever octaves", () => {
    const score = buildScore({ metre: "2/4", solo: "c5:e3 e5:e3 c6:e3 r:e g5:e", piano: "c3:h" });
    expect(say(score)).toEqual(["0:0 C=1 E=1/3", "0:1 C=1 G=1/2"]);
    expect(say(score, { partIds: ["P1"] })).toEqual(["0:0 C=2/3 E=1/3", "0:1 G=1/2"]);
    expect(say(score, { partIds: [] })).toEqual(["0:0", "0:1"]);
  });

  it("overlapping notes of one pitch class count once", () => {
    const score = buildScore({
      metre: "2/4",
      solo: "c5:q. d5:e",
      piano: "r:e c3:h(x)".replace(":h(x)", ":q."),
    });
    expect(say(score)).toEqual(["0:0 C=1", "0:1 C=1 D=1/2"]);
  });

  it("go on under ties, across bar lines too", () => {
    const score = buildScore({ metre: "2/4", solo: "r:q c5:q~ | c5:e d5:q." });
    expect(say(score)).toEqual(["0:0", "0:1 C=1", "1:0 C=1/2 D=1/2", "1:1 D=1"]);
    expect(
      findSoundingNotes(score).map(({ onset, end }) => `${writeQuarters(onset)}–${writeQuarters(end)}`),
    ).toEqual(["1–5/2", "5/2–4"]);
  });

  it("leave out grace notes, cue-size and hidden notes", () => {
    const score = buildScore({ metre: "2/4", solo: "f#5:s(grace) g5:q a5:q(cue) | bb5:q(hidden) r:q" });
    expect(say(score)).toEqual(["0:0 G=1", "0:1", "1:0", "1:1"]);
  });

  it("leave out unpitched notes", () => {
    const score = buildScore({ metre: "2/4", solo: "c5:q d5:q" });
    const [part] = score.parts;
    const notes = part!.notes.map((note) => ({ ...note, written: null, sounding: null }));
    expect(say({ ...score, parts: [{ ...part!, notes }] })).toEqual(["0:0", "0:1"]);
  });

  it("are those that sound, whatever the instrument reads", () => {
    const soloTransposition = { diatonic: -1, chromatic: -2, octaveChange: 0 };
    const score = buildScore({ metre: "2/4", soloTransposition, solo: "d5:q f#5:q" });
    expect(say(score)).toEqual(["0:0 C=1", "0:1 E=1"]);
  });

  it("keep the spelling apart", () => {
    const score = buildScore({ metre: "2/4", solo: "g#5:q ab5:q", piano: "g#3:h" });
    const spelled = pitchClassesPerQuarter(score).map(({ spellings }) =>
      [...spellings].map(([fifths, length]) => `${fifths}: ${writeQuarters(length)}`),
    );
    expect(spelled).toEqual([["8: 2"], ["8: 1", "-4: 1"]]);
  });

  it("start with each bar; a shorter frame closes an irregular bar and opens an upbeat", () => {
    const score = buildScore({ metre: "3/8", solo: "c5:e | c5:q. | d5:q" });
    expect(say(score).map((frame) => frame.split(" ")[0])).toEqual(["0:0", "1:0", "1:1", "2:0"]);
    const long = buildScore({ metre: "4/4", solo: "c5:q. | c5:w" });
    expect(say(long).map((frame) => frame.split(" ")[0])).toEqual([
      "0:0",
      "0:1/2",
      "1:0",
      "1:1",
      "1:2",
      "1:3",
    ]);
  });

  it("can be taken in other steps, not in none", () => {
    const score = buildScore({ metre: "2/4", solo: "c5:q d5:q" });
    expect(say(score, { step: quarters(2) })).toEqual(["0:0 C=1 D=1"]);
    expect(() => pitchClassesPerQuarter(score, { step: quarters(0) })).toThrow(RangeError);
  });

  it("are none in a piece without bars", () => {
    expect(pitchClassesPerQuarter(buildScore({ solo: "" }))).toEqual([]);
  });
});

describe("beats", () => {
  it.each([
    ["4/4", "c5:w", 4],
    ["2/2", "c5:w", 2],
    ["6/8", "c5:h.", 2],
    ["3/8", "c5:q.", 3],
  ] as const)("a bar of %s has %s: %i", (metre, solo, count) => {
    expect(cutIntoBeats(buildScore({ metre, solo }))).toHaveLength(count);
  });

  it("are found by any time inside them", () => {
    const beats = cutIntoBeats(buildScore({ metre: "2/4", solo: "c5:h | c5:h" }));
    const found = [quarters(-1), quarters(0), quarters(1, 2), quarters(1), quarters(7, 2), quarters(9)];
    expect(found.map((time) => frameIndexAt(beats, time))).toEqual([-1, 0, 0, 1, 3, 3]);
  });
});
