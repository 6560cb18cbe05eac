import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { takeExcerpt } from "@/lib/musicxml/cut/take-excerpt";
import { shortName, wrapRemark } from "@/lib/musicxml/marks/wrap-remark";
import { type EditionMarks, writeMarks } from "@/lib/musicxml/marks/write-marks";
import { readScore } from "@/lib/musicxml/read-score";
import { type MusicXmlTree, readTree } from "@/lib/musicxml/read-tree";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { writeTree } from "@/lib/musicxml/write-tree";
import { readQuarters, writeQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";
import { note, source } from "../cut/small-source";

const none: EditionMarks = { breaths: [], cues: [], remarks: [] };
const at = (barIndex: number, offset = "0") => ({ at: { barIndex, offset } });
const duo = { P1: "solo", P2: "reduction" } as const;

function readAgain(tree: MusicXmlTree): Score {
  const read = readScore(new TextEncoder().encode(writeTree(tree)));
  if (!read.ok) throw new Error(read.problem.kind);
  return read.value.score;
}

const breathsOf = (score: Score): string[] =>
  score.parts[0]!.notes.flatMap(({ id, articulations }) =>
    articulations.includes("breath-mark") ? [id] : [],
  );

describe("writeMarks", () => {
  const tree = source(
    [
      note("C5", 8) + note("D5", 8),
      note("E5", 4) + note("r", 12),
      note("F5", 16, { notations: "<articulations><breath-mark/></articulations>" }),
      note("G5", 16),
    ],
    ["C3", "D3", "E3", "F3"].map((pitch) => note(pitch, 16)),
  );
  const { score } = scoreFromTree(tree);
  const write = (marks: Partial<EditionMarks>) => writeMarks(tree, score, { ...none, ...marks }, duo);

  it.each([
    ["after the note that ends there", at(0, "2"), ["n0-0-0", "n0-2-0"]],
    ["at a bar line", at(1), ["n0-0-1", "n0-2-0"]],
    ["inside a note: after the one before", at(0, "3"), ["n0-0-0", "n0-2-0"]],
    ["not where a rest is", at(1, "1"), ["n0-2-0"]],
    ["not after a rest", at(2), ["n0-2-0"]],
    ["not before the first note", at(0), ["n0-2-0"]],
    ["not twice where one is printed", at(3), ["n0-2-0"]],
    ["not behind the piece", at(9), ["n0-2-0"]],
  ])("writes a breath %s", (_, breath, ids) => {
    const written = write({ breaths: [breath, breath] });
    expect(breathsOf(readAgain(written))).toEqual(ids);
    expect(writeTree(written).match(/<breath-mark/g)).toHaveLength(ids.length);
  });

  it("writes cues over the reduction at the exact place, and remarks over the solo part", () => {
    const cues = [{ ...at(1, "4/3"), text: "Fl. & Ob." }];
    const from = { barIndex: 2, offset: "2" };
    const remarks = [{ from, to: from, text: "Wait", by: "Nerys Quill" }];
    const after = readAgain(write({ cues, remarks }));
    const words = after.parts.map(({ directions }) =>
      directions.map((direction) => ({
        text: "text" in direction ? direction.text : "",
        bar: direction.barIndex,
        onset: writeQuarters(direction.onset),
      })),
    );
    expect(words).toEqual([
      [{ text: "Wait (N. Quill)", bar: 2, onset: "10" }],
      [{ text: "Fl. & Ob.", bar: 1, onset: "16/3" }],
    ]);
  });

  it("changes no note and no length, whatever is written", () => {
    const read = readTree(new TextEncoder().encode(writeSoloAndReduction()));
    if (!read.ok) throw new Error(read.problem.kind);
    const whole = takeExcerpt(read.value, 26, 40);
    const before = scoreFromTree(whole).score;
    const bars = before.bars.length;
    const place = fc
      .record({ barIndex: fc.nat(bars), num: fc.nat(12), den: fc.constantFrom(1, 2, 3, 5) })
      .map(({ barIndex, num, den }) => ({ barIndex, offset: reduced(num, den) }));
    const marks = fc.record({
      breaths: fc.array(
        place.map((where) => ({ at: where })),
        { maxLength: 6 },
      ),
      cues: fc.array(
        place.map((where) => ({ at: where, text: "Vc." })),
        { maxLength: 6 },
      ),
      remarks: fc.array(
        place.map((from) => ({ from, to: from, text: "so <much> & more", by: "A" })),
        { maxLength: 3 },
      ),
    });
    fc.assert(
      fc.property(marks, (each) => {
        const after = readAgain(writeMarks(whole, before, each, {}));
        const sounding = (score: Score) =>
          score.parts.map(({ notes, rests }) => [
            notes.map((own) => ({
              ...own,
              articulations: own.articulations.filter((name) => name !== "breath-mark"),
            })),
            rests,
          ]);
        expect(sounding(after)).toEqual(sounding(before));
        expect(after.bars).toEqual(before.bars);
      }),
      { numRuns: 60 },
    );
  });
});

function reduced(num: number, den: number): string {
  for (const divisor of [5, 3, 2])
    if (num % divisor === 0 && den % divisor === 0) return reduced(num / divisor, den / divisor);
  return writeQuarters(readQuarters(`${num}/${den}`)!);
}

describe("wrapRemark", () => {
  it("breaks long remarks into short lines and says what is left out", () => {
    const lines = wrapRemark("one two three ".repeat(30), "Dagny Thorsell").split("\n");
    expect(lines.length).toBe(4);
    expect(lines.at(-1)).toMatch(/… \(D\. Thorsell\)$/);
    expect(Math.max(...lines.slice(0, 3).map(({ length }) => length))).toBeLessThanOrEqual(34);
  });

  it.each([
    ["Nerys Quill", "N. Quill"],
    ["Orban", "Orban"],
    ["élise van den Berg", "É. Berg"],
  ])("calls %s %s", (name, short) => expect(shortName(name)).toBe(short));
});
