import { describe, expect, test } from "vitest";
import { readBarEvents } from "@/lib/rewrites/read-bar-events";
import type { Tremolo } from "@/lib/score/note";
import { writeQuarters } from "@/lib/score/quarters";
import { buildScore } from "@/test/builders/build-score";

/** The first bar of one staff, its first chord with a tremolo: "0 c4+e4 1/3, …". */
function read(line: string, tremolo: Tremolo) {
  const score = buildScore({ metre: "4/4", solo: "R", piano: line });
  const part = score.parts.find(({ role }) => role === "reduction");
  if (!part) throw new Error("no reduction");
  const notes = part.notes.map((note, index) => (index === 0 ? { ...note, tremolo } : note));
  return readBarEvents(score, { ...part, notes }, 0).map(({ offset, length, pitches, tremolo: sign }) => {
    const names = pitches.map(({ step, octave }) => `${step.toLowerCase()}${octave}`).join("+");
    return `${writeQuarters(offset)} ${names}${sign ? `/${sign.strokes}` : ""} ${writeQuarters(length)}`;
  });
}

describe("a tremolo of a chord", () => {
  test("stays a sign", () => {
    expect(read("c4+e4:h g4:h", { type: "single", marks: 2 })).toEqual(["0 c4+e4/2 2", "2 g4 2"]);
  });

  test("that is not measured has three strokes", () => {
    expect(read("c4+e4:h g4:h", { type: "unmeasured", marks: 0 })).toEqual(["0 c4+e4/3 2", "2 g4 2"]);
  });

  test("in triplets is written out, because a sign would mean other strokes", () => {
    const tuplet = { actual: 3, normal: 2 };
    expect(read("c4+e4:q g4:h.", { type: "single", marks: 1, tuplet })).toEqual([
      "0 c4+e4 1/3",
      "1/3 c4+e4 1/3",
      "2/3 c4+e4 1/3",
      "1 g4 3",
    ]);
  });
});
