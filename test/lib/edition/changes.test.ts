import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { applyChanges } from "@/lib/edition/apply-changes";
import { type ChangeProblem, sayChangeProblem } from "@/lib/edition/change-problem";
import { toCutTerms } from "@/lib/edition/cut-terms";
import type { EditionChange } from "@/lib/edition/edition-change";
import {
  type EditionContent,
  editionContentSchema,
  hashEdition,
  noMarks,
  writeEditionContent,
} from "@/lib/edition/edition-content";
import { findChanges } from "@/lib/edition/find-changes";
import { hashText } from "@/lib/edition/hash-terms";
import { printedTempo } from "@/lib/edition/tempo-terms";
import type { CutSpan } from "@/lib/score/cut-span";
import { arbitraryEdition } from "@/test/builders/arbitrary-editions";
import { at } from "@/test/builders/build-score";

const sourceHash = hashText("a source");
const cut = (from: number, to: number) => toCutTerms({ from: at(from), to: at(to) }, sourceHash);
const place = (barIndex: number) => ({ barIndex, offset: "0" });
const edition = (changes: Partial<EditionContent> = {}): EditionContent => ({
  ...{
    ...noMarks,
    schema: 2,
    sourceHash,
    partRoles: { P1: "solo" },
    cuts: [cut(8, 12)],
    tempo: printedTempo,
  },
  ...changes,
});

describe("laws", () => {
  test("what differs between A and B, done to A, gives B to the letter", () => {
    fc.assert(
      fc.property(arbitraryEdition, arbitraryEdition, (a, b) => {
        expect(editionContentSchema.safeParse(a).success).toBe(true);
        const applied = applyChanges(a, findChanges(a, b));
        if (!applied.ok) throw new Error(applied.problem.kind);
        expect(writeEditionContent(applied.value)).toBe(writeEditionContent(b));
        expect(hashEdition(applied.value)).toBe(hashEdition(b));
      }),
      { numRuns: 1000 },
    );
  });

  test("nothing differs exactly when the hash is the same", () => {
    fc.assert(
      fc.property(arbitraryEdition, arbitraryEdition, (a, b) => {
        expect(findChanges(a, a)).toEqual([]);
        expect(findChanges(a, { ...a, cuts: a.cuts.toReversed() })).toEqual([]);
        expect(findChanges(a, b).length === 0).toBe(hashEdition(a) === hashEdition(b));
      }),
    );
  });

  test("the order of the changes does not matter", () => {
    fc.assert(
      fc.property(arbitraryEdition, arbitraryEdition, (a, b) => {
        const applied = applyChanges(a, findChanges(a, b).toReversed());
        expect(applied.ok && hashEdition(applied.value)).toBe(hashEdition(b));
      }),
    );
  });

  test("done to a third edition they give one that passes the schema, or a sentence", () => {
    fc.assert(
      fc.property(arbitraryEdition, arbitraryEdition, arbitraryEdition, (a, b, c) => {
        const applied = applyChanges(c, findChanges(a, b));
        if (applied.ok) expect(editionContentSchema.parse(applied.value)).toEqual(applied.value);
        else expect(say(applied.problem)).toMatch(/^The change .+\.$/);
      }),
    );
  });

  test("what two decided apart from each other, neither touching what the other did, is joined either way round", () => {
    const base = edition({ cuts: [cut(8, 12), cut(20, 24)] });
    const one = { ...base, cuts: [cut(8, 14), cut(20, 24)] };
    const other = { ...base, cuts: [cut(8, 12)], partRoles: { P1: "other" as const } };
    const joined = [applyChanges(one, findChanges(base, other)), applyChanges(other, findChanges(base, one))];
    const expected = hashEdition({ ...base, cuts: [cut(8, 14)], partRoles: { P1: "other" } });
    expect(joined.map((result) => result.ok && hashEdition(result.value))).toEqual([expected, expected]);
  });
});

const names = {
  cut: ({ from, to }: CutSpan) => `bars ${from.barIndex + 1}–${to.barIndex}`,
  place: ({ barIndex }: { barIndex: number }) => `bar ${barIndex + 1}`,
};
const say = (problem: ChangeProblem) => sayChangeProblem(problem, names);

const timed = (seconds: number) => [{ from: place(5), to: place(9), seconds }];
const refused: [name: string, change: EditionChange, sentence: string][] = [
  [
    "a cut that is not there",
    { kind: "cut", before: cut(8, 13), after: cut(8, 14) },
    "The change opens or moves a cut (bars 9–13) that this edition does not have.",
  ],
  [
    "a cut over another",
    { kind: "cut", before: null, after: cut(10, 14) },
    "The change adds a cut (bars 11–14) that overlaps one of this edition (bars 9–12).",
  ],
  [
    "a cut of another file",
    { kind: "cut", before: null, after: { ...cut(20, 22), sourceHash: hashText("another") } },
    "The change adds a cut of another file, whose bars are not those of this edition.",
  ],
  [
    "a tempo that is another",
    { kind: "tempo", at: place(4), before: 60, after: 72 },
    "The change sets the tempo at bar 5, where this edition has the printed tempo.",
  ],
  [
    "a timing that is another",
    { kind: "timing", from: place(5), to: place(9), before: 12, after: 13 },
    "The change sets the timing from bar 6 to bar 10, where this edition has no timing.",
  ],
  [
    "a list of tempi that is another",
    { kind: "tempi", before: [{ at: place(4), quartersPerMinute: 60 }], after: [] },
    "The change replaces all tempi, and those of this edition are others.",
  ],
  [
    "a list of timings that is another",
    { kind: "timings", before: timed(12), after: [] },
    "The change replaces all timings, and those of this edition are others.",
  ],
  [
    "a fermata that is another",
    { kind: "allowance", field: "fermataFactor", before: 2, after: 3 },
    "The change sets how long a fermata is held, which is 1.75 in this edition and not what it was there.",
  ],
  [
    "a part that is another",
    { kind: "part", partId: "P1", before: "reduction", after: "other" },
    "The change sets what part P1 is for, which this edition has decided otherwise.",
  ],
  [
    "another file from another edition",
    { kind: "source", before: edition({ cuts: [] }), after: edition({ sourceHash: hashText("another") }) },
    "The change goes to another file, from an edition that is not this one.",
  ],
];

describe("a change that does not fit is refused with a sentence", () => {
  test.each(refused)("%s", (_name, change, sentence) => {
    const applied = applyChanges(edition(), [change]);
    expect(applied.ok ? "it was done" : say(applied.problem)).toBe(sentence);
  });
});
