import { describe, expect, it } from "vitest";
import { checkSpanners } from "@/lib/musicxml/check-spanners";
import { applyCuts } from "@/lib/musicxml/cut/apply-cuts";
import { octaveForStaff } from "@/lib/musicxml/lead-in/octave-for-staff";
import { thinLine } from "@/lib/musicxml/lead-in/thin-line";
import { writeLeadIns } from "@/lib/musicxml/lead-in/write-lead-ins";
import { readScore } from "@/lib/musicxml/read-score";
import { type MusicXmlTree, readTree } from "@/lib/musicxml/read-tree";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { writeTree } from "@/lib/musicxml/write-tree";
import { assignRoles } from "@/lib/score/assign-roles";
import { quarters, writeQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";
import { note, opening, source } from "../cut/small-source";

const duo = { P1: "solo", P2: "reduction" } as const;

function lead(tree: MusicXmlTree, minimalRestBars?: number): Score {
  const score = assignRoles(scoreFromTree(tree).score, duo);
  const written = writeLeadIns(tree, score, minimalRestBars === undefined ? {} : { minimalRestBars });
  expect(checkSpanners(written)).toEqual(checkSpanners(tree));
  const read = readScore(new TextEncoder().encode(writeTree(written)));
  if (!read.ok) throw new Error(read.problem.kind);
  expect(read.value.notices).toEqual([]);
  return read.value.score;
}

/** "2 F#5 q8": bar from 1, written pitch, onset in its quarter notes from the start of the piece. */
const cuesIn = (score: Score): string[] =>
  score.parts[0]!.notes.filter(({ isCue }) => isCue).map(({ barIndex, written, onset, duration }) => {
    const sign = ["b", "", "#"][written!.alter + 1];
    return `${barIndex + 1} ${written!.step}${sign}${written!.octave} ${writeQuarters(onset)} ${writeQuarters(duration)}`;
  });

const rest = note("r", 16);
const clarinet = opening.replace(
  "</attributes>",
  "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose></attributes>",
);
const restAndEntry = (bars: number, entry: string) => [
  clarinet + rest,
  ...Array.from({ length: bars - 1 }, () => rest),
  entry,
];

describe("writeLeadIns", () => {
  const piano = (bars: number) => Array.from({ length: bars }, () => note("E5", 8) + note("G5", 8));

  it("writes the last two bars at the soloist's pitch and stops at the entry", () => {
    const tree = source(restAndEntry(8, note("C5", 16)), piano(9));
    expect(cuesIn(lead(tree))).toEqual(["7 F#5 24 2", "7 A5 26 2", "8 F#5 28 2", "8 A5 30 2"]);
  });

  it("stops inside the bar of the entry", () => {
    const tree = source(restAndEntry(8, note("r", 4) + note("C5", 12)), piano(9));
    expect(cuesIn(lead(tree))).toEqual(["8 F#5 28 2", "8 A5 30 2", "9 F#5 32 1"]);
  });

  it("writes nothing after a shorter rest, unless it is asked for", () => {
    const tree = source(restAndEntry(7, note("C5", 16)), piano(8));
    expect(cuesIn(lead(tree))).toEqual([]);
    expect(cuesIn(lead(tree, 7))).toHaveLength(4);
  });

  it("takes the top of chords, and what is on the beats of a tremolo", () => {
    const busy = Array.from({ length: 8 }, () => note("E5", 1) + note("G5", 1)).join("");
    const bars = Array.from({ length: 9 }, () => busy);
    const tree = source(restAndEntry(8, note("C5", 16)), bars);
    expect(cuesIn(lead(tree)).slice(0, 4)).toEqual(["7 F#5 24 1", "7 F#5 25 1", "7 F#5 26 1", "7 F#5 27 1"]);
    const chords = Array.from({ length: 9 }, () => note("C4", 16) + note("+G4", 16) + note("+E5", 16));
    expect(cuesIn(lead(source(restAndEntry(8, note("C5", 16)), chords)))).toEqual([
      "7 F#5 24 4",
      "8 F#5 28 4",
    ]);
  });

  it("leaves out the bass where the right hand rests", () => {
    const polonaise = note("B2", 4) + note("F4", 4) + note("B2", 4) + note("F4", 4);
    const bars = Array.from({ length: 9 }, () => polonaise);
    const after = lead(source(restAndEntry(8, note("C5", 16)), bars));
    expect(cuesIn(after)).toEqual(["7 G4 25 1", "7 G4 27 1", "8 G4 29 1", "8 G4 31 1"]);
    const small = after.parts[0]!.rests.filter(({ isCue }) => isCue);
    expect(small.map(({ onset }) => writeQuarters(onset))).toEqual(["24", "26", "28", "30"]);
  });

  it("begins with the bar in which the line is heard", () => {
    const bars = [...Array.from({ length: 7 }, () => note("B2", 16)), note("E5", 8) + note("G5", 8)];
    const after = lead(source(restAndEntry(8, note("C5", 16)), bars));
    expect(cuesIn(after)).toEqual(["8 F#5 28 2", "8 A5 30 2"]);
    expect(after.parts[0]!.rests.filter(({ isCue }) => isCue)).toEqual([]);
  });

  it("shows what comes before in the edition, not what a cut took", () => {
    const bars = ["C5", "D5", "E5", "F5", "G5", "A5", "B5", "C5", "D5", "E5", "F5", "G5"].map((pitch) =>
      note(pitch, 16),
    );
    const tree = source(restAndEntry(11, note("C5", 16)), bars);
    const cut = { from: { barIndex: 8, offset: quarters(0) }, to: { barIndex: 11, offset: quarters(0) } };
    expect(cuesIn(lead(applyCuts(tree, [cut], { marks: false }).tree))).toEqual(["7 C#6 24 4", "8 D5 28 4"]);
  });

  it("changes nothing that the soloist sounds, and keeps every rest", () => {
    const read = readTree(new TextEncoder().encode(writeSoloAndReduction()));
    if (!read.ok) throw new Error(read.problem.kind);
    const before = scoreFromTree(read.value).score;
    for (const minimal of [1, 3, 8]) {
      const after = lead(read.value, minimal);
      const played = ({ parts }: Score) => parts.map(({ notes }) => notes.filter(({ isCue }) => !isCue));
      const rested = ({ parts }: Score) =>
        parts.map(({ rests }) =>
          rests.filter(({ isCue }) => !isCue).map(({ id, onset, duration }) => ({ id, onset, duration })),
        );
      expect(played(after)).toEqual(played(before));
      expect(rested(after)).toEqual(rested(before));
      expect(after.bars).toEqual(before.bars);
      expect(cuesIn(after).length).toBeGreaterThan(0);
    }
  });
});

describe("what a cue can show", () => {
  it("moves a line that lies far from the staff by octaves", () => {
    const clef = { onset: quarters(0), barIndex: 0, staff: 1, sign: "F", line: 4, octaveChange: 0 };
    const at = (octave: number) => [{ step: "C" as const, alter: 0, octave }];
    expect([2, 3, 4, 5, 6].map((octave) => octaveForStaff(at(octave), clef))).toEqual([0, 0, 0, -1, -2]);
    expect(octaveForStaff(at(6), { ...clef, sign: "G", line: 2 })).toBe(0);
  });

  it("thins only bars that hold too much", () => {
    const { bars } = scoreFromTree(source([note("C5", 16), note("C5", 16)])).score;
    const notes = (from: number, count: number, length: number) =>
      Array.from({ length: count }, (_, index) => ({
        onset: quarters(from * length + index, length),
        duration: quarters(1, length),
        pitch: { step: "C" as const, alter: 0, octave: 5 },
        isTremolo: false,
      }));
    const line = [...notes(0, 12, 3), ...notes(4, 16, 4)];
    expect(thinLine(line, bars, quarters(8)).map(({ duration }) => writeQuarters(duration))).toEqual([
      ...Array.from({ length: 12 }, () => "1/3"),
      ...Array.from({ length: 4 }, () => "1"),
    ]);
  });
});
