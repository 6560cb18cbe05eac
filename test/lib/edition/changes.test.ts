import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { applyChanges } from "@/lib/edition/apply-changes";
import { type ChangeProblem, sayChangeProblem } from "@/lib/edition/change-problem";
import { toCutTerms } from "@/lib/edition/cut-terms";
import type { EditionChange } from "@/lib/edition/edition-change";
import {
  type EditionContent,
  frozenContentSchema,
  hashEdition,
  noMarks,
  writeEditionContent,
} from "@/lib/edition/edition-content";
import { findChanges } from "@/lib/edition/find-changes";
import { hashText } from "@/lib/edition/hash-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
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

/** A content of schema 1 is written without lists of marks. */
const passesSchema = (content: EditionContent) =>
  frozenContentSchema.safeParse(JSON.parse(writeEditionContent(content))).success;

/** The same decisions as they might come in: in another order, and each mark twice. */
const inAnotherOrder = (content: EditionContent): EditionContent => {
  const twice = <Item>(list: readonly Item[]) => [...list, ...list].toReversed();
  const { breaths, cues, rewrites, remarks } = content;
  return {
    ...{ ...content, cuts: content.cuts.toReversed(), breaths: twice(breaths), cues: twice(cues) },
    ...{ rewrites: twice(rewrites), remarks: twice(remarks) },
  };
};

describe("laws", () => {
  test("what differs between A and B, done to A, gives B to the letter", () => {
    fc.assert(
      fc.property(arbitraryEdition, arbitraryEdition, (a, b) => {
        expect(passesSchema(a)).toBe(true);
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
        expect(findChanges(a, inAnotherOrder(a))).toEqual([]);
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
        if (applied.ok) expect(passesSchema(applied.value)).toBe(true);
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

describe("marks", () => {
  const breath = (barIndex: number) => ({ at: place(barIndex) });
  const cue = (barIndex: number, text: string) => ({ at: place(barIndex), text });
  const remark = (text: string, by = "Nerys Quill") => ({ from: place(96), to: place(97), text, by });
  const marked = (marks: Partial<EditionContent>) => edition(marks);

  test("a breath taken off here and put into the next bar has moved; two bars on it is another", () => {
    expect(findChanges(marked({ breaths: [breath(107)] }), marked({ breaths: [breath(106)] }))).toEqual([
      { kind: "breath", before: breath(107), after: breath(106) },
    ]);
    const far = findChanges(marked({ breaths: [breath(107)] }), marked({ breaths: [breath(105)] }));
    expect(far.map((change) => ("before" in change ? [change.before, change.after] : null))).toEqual([
      [null, breath(105)],
      [breath(107), null],
    ]);
  });

  test("breaths that all moved one bar on are paired each with its neighbour", () => {
    const [a, b] = [
      [10, 12, 14],
      [11, 13, 15],
    ].map((bars) => marked({ breaths: bars.map(breath) }));
    if (!a || !b) throw new Error("no editions");
    expect(findChanges(a, b)).toHaveLength(3);
  });

  test("a cue is reworded at its place, and moves with its word", () => {
    const a = marked({ cues: [cue(4, "Fl."), cue(8, "Ob.")] });
    const b = marked({ cues: [cue(4, "Cor."), cue(9, "Ob.")] });
    expect(findChanges(a, b)).toEqual([
      { kind: "cue", before: cue(4, "Fl."), after: cue(4, "Cor.") },
      { kind: "cue", before: cue(8, "Ob."), after: cue(9, "Ob.") },
    ]);
  });

  test("the same letters typed on another machine are no change", () => {
    const [a, b] = ["Caf\u00e9", "Cafe\u0301"].map((text) => marked({ cues: [cue(4, text)] }));
    expect(a && b && findChanges(a, b)).toEqual([]);
  });

  test("a remark in other words is the same remark", () => {
    const [a, b] = [marked({ remarks: [remark("wait")] }), marked({ remarks: [remark("wait for me")] })];
    expect(findChanges(a, b)).toEqual([
      { kind: "remark", before: remark("wait"), after: remark("wait for me") },
    ]);
  });

  test("an edition of the first schema becomes one of the second, with nothing else changed", () => {
    const a = edition({ schema: 1 });
    expect(findChanges(a, edition())).toEqual([{ kind: "schema", before: 1, after: 2 }]);
    const applied = applyChanges(a, findChanges(a, edition()));
    expect(applied.ok && hashEdition(applied.value)).toBe(hashEdition(edition()));
  });

  test("an edition of the first schema that gets a mark is one of the second", () => {
    const change: EditionChange = { kind: "breath", before: null, after: breath(4) };
    const applied = applyChanges(edition({ schema: 1 }), [change]);
    expect(applied.ok && applied.value).toEqual(marked({ breaths: [breath(4)] }));
  });

  test("what stands already is not put in twice", () => {
    const standing = marked({ breaths: [breath(4)] });
    const applied = applyChanges(standing, [{ kind: "breath", before: null, after: breath(4) }]);
    expect(applied.ok && applied.value.breaths).toEqual([breath(4)]);
  });
});

const rewrite = (from: number, to: number, changes: Partial<RewriteTerms> = {}): RewriteTerms => ({
  ...{ kind: "rewrite", sourceHash, partId: "P2", from: place(from), to: place(to), events: [] },
  ...{ shown: "ossia", words: "tremolo for the repeated octaves" },
  ...changes,
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

refused.push(
  [
    "a breath that is not there",
    { kind: "breath", before: { at: place(107) }, after: { at: place(106) } },
    "The change takes off or changes a breath at the end of bar 107, which this edition does not have.",
  ],
  [
    "a cue that is not there",
    { kind: "cue", before: { at: { barIndex: 4, offset: "1" }, text: "Fl." }, after: null },
    "The change takes off or changes the cue Fl. over bar 5, which this edition does not have.",
  ],
  [
    "a remark that is not there",
    {
      ...{ kind: "remark", after: null },
      before: { from: place(4), to: place(6), text: "wait", by: "Nerys Quill" },
    },
    "The change takes off or changes Nerys's remark in bars 5–6, which this edition does not have.",
  ],
  [
    "a rewrite that is not there",
    { kind: "rewrite", before: rewrite(40, 44), after: null },
    "The change takes off or changes a rewrite of bars 41–44, which this edition does not have.",
  ],
  [
    "a rewrite of another file",
    { kind: "rewrite", before: null, after: rewrite(40, 44, { sourceHash: hashText("another") }) },
    "The change adds a rewrite of another file, whose bars are not those of this edition.",
  ],
);

test("a rewrite over another of the same part is refused, and one of another part is not", () => {
  const standing = edition({ rewrites: [rewrite(40, 44)] });
  const add = (after: RewriteTerms) => applyChanges(standing, [{ kind: "rewrite", before: null, after }]);
  const refusal = add(rewrite(42, 46));
  expect(refusal.ok ? "it was done" : say(refusal.problem)).toBe(
    "The change adds a rewrite (bars 43–46) that overlaps one of this edition (bars 41–44).",
  );
  expect(add(rewrite(42, 46, { partId: "P3" })).ok).toBe(true);
  expect(add(rewrite(44, 46)).ok).toBe(true);
});

test("going back to the first schema is refused where marks stand", () => {
  const standing = edition({ breaths: [{ at: place(4) }] });
  const refusal = applyChanges(standing, [{ kind: "schema", before: 2, after: 1 }]);
  expect(refusal.ok ? "it was done" : say(refusal.problem)).toBe(
    "The change goes back to an edition without breaths, cues, rewrites and printed comments, and this edition has some.",
  );
});

describe("a change that does not fit is refused with a sentence", () => {
  test.each(refused)("%s", (_name, change, sentence) => {
    const applied = applyChanges(edition(), [change]);
    expect(applied.ok ? "it was done" : say(applied.problem)).toBe(sentence);
  });
});
