import { expect, test } from "vitest";
import { hashMarks } from "@/lib/room/hash-marks";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { readStandingMarks } from "@/lib/room/standing-marks";
import { touchesEdition } from "@/lib/room/touches-edition";
import { pianist, soloist } from "./room-members";
import { breathOf, commentOf, cueOf, put } from "./room-records";

const deletedAt = "2026-11-25T08:30:00.000Z";
const about = { kind: "proposal" as const, proposalId: "7" };

test("what stands: breaths, cues, and comments that their authors want printed", () => {
  const doc = openRoomDoc();
  put(doc, "breaths", breathOf(soloist, "b1", 31), soloist);
  put(doc, "breaths", { ...breathOf(soloist, "b2", 32), deletedAt }, soloist);
  put(doc, "cues", cueOf(pianist, "k1", 9), pianist);
  put(doc, "cues", cueOf(pianist, "k2", 10, { deletedAt }), pianist);
  put(doc, "comments", commentOf(pianist, "c1", { print: true }), pianist);
  put(doc, "comments", commentOf(pianist, "c2", { print: true, deletedAt }), pianist);
  put(doc, "comments", commentOf(pianist, "c3"), pianist);
  const marks = readStandingMarks(doc);
  expect(marks.breaths.map(({ at }) => at.barIndex)).toEqual([31]);
  expect(marks.cues.map(({ at, text }) => [at.barIndex, text])).toEqual([[9, "Fl."]]);
  expect(marks.remarks).toMatchObject([{ text: "Wait for the breath", authorId: pianist.userId }]);
});

test("their number is the same in whatever order they were written, and another when one is another", () => {
  const hashOf = (...bars: number[]) => {
    const doc = openRoomDoc();
    for (const [index, bar] of bars.entries())
      put(doc, "breaths", breathOf(soloist, `b${index}`, bar), soloist);
    return hashMarks(readStandingMarks(doc));
  };
  expect(hashOf(3, 5)).toBe(hashOf(5, 3));
  expect(hashOf(3, 5)).not.toBe(hashOf(3, 6));
  expect(hashOf()).not.toBe(hashOf(3));
});

test.each<[string, Parameters<typeof touchesEdition>[0]["map"], unknown, unknown, boolean]>([
  ["a breath", "breaths", undefined, breathOf(soloist, "b", 1), true],
  ["a cue", "cues", undefined, cueOf(pianist, "k", 1), true],
  ["talk", "comments", undefined, commentOf(pianist, "c"), false],
  ["talk about a cut", "comments", undefined, commentOf(pianist, "c", { about }), false],
  [
    "what is to be printed",
    "comments",
    commentOf(pianist, "c"),
    commentOf(pianist, "c", { print: true }),
    true,
  ],
  ["what was to be", "comments", commentOf(pianist, "c", { print: true }), commentOf(pianist, "c"), true],
  ["a pencilled cut", "pencilledCuts", undefined, {}, false],
])("%s: whether it is of the edition", (_name, map, before, after, expected) => {
  expect(touchesEdition({ map, key: "x", before, after, isOvertaken: false })).toBe(expected);
});
