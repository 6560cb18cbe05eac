import { describe, expect, test } from "vitest";
import type { Tremolo } from "@/lib/score/note";
import { quarters, writeQuarters } from "@/lib/score/quarters";
import { shareTremolos } from "@/lib/score/share-tremolos";
import { strokeLength } from "@/lib/score/tremolo-stroke";
import { buildScore } from "@/test/builders/build-score";

const triplet = { actual: 3, normal: 2 };

// Common practice: a stroke through the stem halves the value like a beam; MusicXML 4.0, `tremolo`: 0 to 8 marks.
describe("one stroke of a tremolo", () => {
  test.each<[string, readonly [number, number], Tremolo, string]>([
    ["eighths on a half note", [2, 1], { type: "single", marks: 1 }, "1/2"],
    ["sixteenths on a quarter", [1, 1], { type: "single", marks: 2 }, "1/4"],
    ["sixteenths on an eighth, which has a flag", [1, 2], { type: "single", marks: 1 }, "1/4"],
    ["thirty-seconds where it is not measured", [4, 1], { type: "unmeasured", marks: 0 }, "1/8"],
    // A dotted quarter in the time of a quarter, struck in eighths: three of them.
    ["triplets", [1, 1], { type: "single", marks: 1, tuplet: triplet }, "1/3"],
    [
      "triplets of sixteenths on a triplet eighth",
      [1, 3],
      { type: "single", marks: 1, tuplet: triplet },
      "1/6",
    ],
    ["thirty-seconds of two that alternate", [2, 1], { type: "start", marks: 3 }, "1/8"],
  ])("%s", (_name, [num, den], tremolo, length) => {
    expect(writeQuarters(strokeLength(quarters(num, den), tremolo))).toBe(length);
  });
});

test("the sign on one note of a chord is that of all its notes, and of no other voice's", () => {
  const [, part] = buildScore({ metre: "4/4", solo: "R", piano: ["c5+e5:h g5:h", "c3:h c3:h"] }).parts;
  const tremolo = { type: "single", marks: 2 } as const;
  const notes = (part?.notes ?? []).map((note, index) => (index === 0 ? { ...note, tremolo } : note));
  const shared = shareTremolos(notes).filter((note) => note.tremolo !== null);
  expect(shared.map(({ written }) => `${written?.step}${written?.octave}`)).toEqual(["C5", "E5"]);
  expect(shareTremolos(part?.notes ?? [])).toBe(part?.notes);
});
