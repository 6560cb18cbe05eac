import { describe, expect, test } from "vitest";
import { type ProposedSet, sayProposedSet } from "@/lib/cuts/plan/say-proposed-set";

const set: ProposedSet = { numbers: [2, 3, 4], agreedNumbers: [], runsSeconds: 444, limitSeconds: 450 };

describe("a proposed set in a sentence", () => {
  test.each<[Partial<ProposedSet>, string]>([
    [{}, "With cuts 2, 3 and 4 the piece runs 7:24, within the limit of 7:30."],
    [{ numbers: [3] }, "With cut 3 the piece runs 7:24, within the limit of 7:30."],
    [{ numbers: [4, 2] }, "With cuts 2 and 4 the piece runs 7:24, within the limit of 7:30."],
    [{ limitSeconds: null }, "With cuts 2, 3 and 4 the piece runs 7:24."],
    [{ runsSeconds: 450 }, "With cuts 2, 3 and 4 the piece runs 7:30, within the limit of 7:30."],
    // What is missing is never shown as nothing, though both round to the same second.
    [{ runsSeconds: 450.04 }, "With cuts 2, 3 and 4 the piece runs 7:30, 0.1 s over the limit of 7:30."],
    [
      { agreedNumbers: [1] },
      "With cuts 2, 3 and 4 beside the agreed cut 1 the piece runs 7:24, within the limit of 7:30.",
    ],
    [
      { agreedNumbers: [5, 1], runsSeconds: 475.2 },
      "With cuts 2, 3 and 4 beside the agreed cuts 1 and 5 the piece runs 7:55, 26 s over the limit of 7:30.",
    ],
  ])("%j", (change, sentence) => {
    expect(sayProposedSet({ ...set, ...change })).toBe(sentence);
  });
});
