import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compareEditions } from "@/lib/edition/compare-editions";
import { toCutTerms } from "@/lib/edition/cut-terms";
import { type EditionContent, hashEdition, isSameEdition, noMarks } from "@/lib/edition/edition-content";
import { hashText } from "@/lib/edition/hash-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { printedTempo, toTempoSettings } from "@/lib/edition/tempo-terms";
import { timeEdition } from "@/lib/edition/time-edition";
import { noQuarters, writeQuarters } from "@/lib/score/quarters";
import { readTempoMap } from "@/lib/score/tempo-map";
import { buildScore } from "@/test/builders/build-score";

// Twenty bars of 4/4 at 60: a bar lasts four seconds.
const score = buildScore({ metre: "4/4", tempo: 60, solo: bars("c5:w"), piano: bars("c3:w") });
const sourceHash = hashText("a source");
const names = {
  cut: ({ from, to }: { from: { barIndex: number }; to: { barIndex: number } }) =>
    from.barIndex + 1 === to.barIndex ? `bar ${to.barIndex}` : `bars ${from.barIndex + 1}–${to.barIndex}`,
  place: ({ barIndex, offset }: { barIndex: number; offset: typeof noQuarters }) =>
    `bar ${barIndex + 1}${offset.num === 0 ? "" : ` + ${writeQuarters(offset)}`}`,
};

function bars(bar: string): string {
  return Array.from({ length: 20 }, () => bar).join(" | ");
}

function cut(from: number, to: number) {
  const at = (barIndex: number) => ({ barIndex, offset: noQuarters });
  return toCutTerms({ from: at(from), to: at(to) }, sourceHash);
}

function edition(changes: Partial<EditionContent> = {}): EditionContent {
  const partRoles = Object.fromEntries(score.parts.map(({ id, role }) => [id, role]));
  return { ...noMarks, schema: 2, sourceHash, partRoles, cuts: [], tempo: printedTempo, ...changes };
}

const place = (barIndex: number) => ({ barIndex, offset: "0" });
const breath = (barIndex: number) => ({ at: place(barIndex) });
const cue = (barIndex: number, text: string) => ({ at: place(barIndex), text });
const remark = (from: number, to: number, text: string) => ({
  ...{ from: place(from), to: place(to), text, by: "Nerys Quill" },
});

function rewrite(from: number, to: number, words: string): RewriteTerms {
  const span = { from: place(from), to: place(to) };
  return { kind: "rewrite", sourceHash, partId: "P2", ...span, events: [], shown: "ossia", words };
}

function compare(a: EditionContent, b: EditionContent) {
  return compareEditions(score, readTempoMap(score, toTempoSettings(b.tempo)), a, b, names);
}

const told = (a: EditionContent, b: EditionContent) =>
  compare(a, b).map(({ kind, sentence, secondsLonger }) => [
    kind,
    sentence,
    Math.round(secondsLonger * 1000) / 1000,
  ]);

describe("what changed", () => {
  test("a cut is new", () => {
    expect(told(edition(), edition({ cuts: [cut(8, 12)] }))).toEqual([
      ["cut-added", "Cut added: bars 9–12, 0:16 shorter.", -16],
    ]);
  });

  test("a cut is gone", () => {
    expect(told(edition({ cuts: [cut(8, 12)] }), edition())).toEqual([
      ["cut-removed", "Cut opened: bars 9–12 are played again, 0:16 longer.", 16],
    ]);
  });

  test("a cut has moved", () => {
    expect(told(edition({ cuts: [cut(8, 12)] }), edition({ cuts: [cut(8, 14)] }))).toEqual([
      ["cut-moved", "Cut ends two bars later and saves 0:08 more: bars 9–12 became bars 9–14.", -8],
    ]);
  });

  test.each<[string, [number, number], [number, number]]>([
    ["moved one bar later and saves as much as before: bars 9–12 became bars 10–13", [8, 12], [9, 13]],
    ["begins two bars later and saves 0:08 less: bars 9–12 became bars 11–12", [8, 12], [10, 12]],
    [
      "begins one bar earlier, ends one bar later and saves 0:08 more: bars 9–12 became bars 8–13",
      [8, 12],
      [7, 13],
    ],
  ])("a cut %s", (words, before, after) => {
    const [only] = told(edition({ cuts: [cut(...before)] }), edition({ cuts: [cut(...after)] }));
    expect(only?.[1]).toBe(`Cut ${words}.`);
  });

  test("a cut that ends inside another bar than before has moved, by no number of bars", () => {
    const inside = { ...cut(8, 13), to: { barIndex: 12, offset: "2" } };
    expect(told(edition({ cuts: [cut(8, 12)] }), edition({ cuts: [inside] }))).toEqual([
      ["cut-moved", "Cut moved and saves 0:02 more: bars 9–12 became bars 9–12.", -2],
    ]);
  });

  test("a cut with a name is called by it", () => {
    const [a, b] = [edition({ cuts: [cut(8, 12)] }), edition({ cuts: [cut(10, 12)] })];
    const called = compareEditions(score, readTempoMap(score), a, b, { ...names, cutTitle: () => "Cut B" });
    expect(called[0]?.sentence).toBe(
      "Cut B begins two bars later and saves 0:08 less: bars 9–12 became bars 11–12.",
    );
  });

  test("two cuts that became one are told apart", () => {
    const kinds = compare(edition({ cuts: [cut(2, 4), cut(8, 12)] }), edition({ cuts: [cut(3, 10)] })).map(
      ({ kind }) => kind,
    );
    expect(kinds.sort()).toEqual(["cut-added", "cut-removed", "cut-removed"]);
  });

  test("a tempo, a timing, an allowance", () => {
    const tempo = {
      ...printedTempo,
      fermataFactor: 2,
      tempi: [{ at: { barIndex: 10, offset: "0" }, quartersPerMinute: 120 }],
      timings: [{ from: { barIndex: 0, offset: "0" }, to: { barIndex: 5, offset: "0" }, seconds: 25 }],
    };
    expect(told(edition(), edition({ tempo }))).toEqual([
      ["tempo-changed", "Bar 11: 120 quarters a minute instead of the printed tempo.", -20],
      ["tempo-changed", "From bar 1 to bar 6: timed at 0:25.", 5],
      ["tempo-changed", "A fermata is held 2 times its length instead of 1.75 times its length.", 0],
    ]);
  });

  test("a part", () => {
    const [first] = score.parts;
    const partRoles = { ...edition().partRoles, [first?.id ?? ""]: "other" as const };
    expect(told(edition(), edition({ partRoles }))).toEqual([
      ["part-changed", `${first?.name} is left out now.`, 0],
    ]);
  });

  test.each<[string, Partial<EditionContent>, Partial<EditionContent>, string]>([
    ["a breath is new", {}, { breaths: [breath(8)] }, "Breath added at the end of bar 8."],
    [
      "a breath inside a bar",
      {},
      { breaths: [{ at: { barIndex: 8, offset: "1" } }] },
      "Breath added before bar 9 + 1.",
    ],
    ["a breath before all", {}, { breaths: [breath(0)] }, "Breath added at the beginning of bar 1."],
    ["a breath is gone", { breaths: [breath(8)] }, {}, "Breath taken off at the end of bar 8."],
    [
      "a breath moved",
      { breaths: [breath(8)] },
      { breaths: [breath(7)] },
      "Breath moved from the end of bar 8 to the end of bar 7.",
    ],
    ["a cue is new", {}, { cues: [cue(13, "Fl.")] }, "Fl. written over bar 14."],
    ["a cue is gone", { cues: [cue(13, "Fl.")] }, {}, "Fl. taken off bar 14."],
    [
      "a cue is another",
      { cues: [cue(13, "Fl.")] },
      { cues: [cue(13, "Ob. solo")] },
      "Ob. solo instead of Fl. over bar 14.",
    ],
    [
      "a cue moved",
      { cues: [cue(13, "Fl.")] },
      { cues: [cue(14, "Fl.")] },
      "Fl. moved from bar 14 to bar 15.",
    ],
    [
      "a remark is printed",
      {},
      { remarks: [remark(9, 10, "wait")] },
      "Nerys's remark printed at bar 10: “wait”",
    ],
    [
      "a remark is not printed any more",
      { remarks: [remark(9, 12, "wait")] },
      {},
      "Nerys's remark in bars 10–12 is not printed any more: “wait”",
    ],
    [
      "a remark is reworded",
      { remarks: [remark(9, 10, "wait")] },
      { remarks: [remark(9, 10, "go on")] },
      "Nerys's remark at bar 10 reworded: “go on” instead of “wait”",
    ],
    [
      "a remark is signed by another name",
      { remarks: [remark(9, 10, "wait")] },
      { remarks: [{ ...remark(9, 10, "wait"), by: "Nerys Thorn" }] },
      "The remark at bar 10 is signed Nerys Thorn instead of Nerys Quill: “wait”",
    ],
    [
      "a rewrite is new",
      {},
      { rewrites: [rewrite(2, 6, "tremolo for the repeated octaves")] },
      "Ossia in bars 3–6: tremolo for the repeated octaves.",
    ],
    [
      "a rewrite is gone",
      { rewrites: [rewrite(2, 6, "tremolo")] },
      {},
      "Ossia in bars 3–6 gone: played as printed again (was: tremolo).",
    ],
    [
      "a rewrite is another",
      { rewrites: [rewrite(2, 6, "tremolo")] },
      { rewrites: [{ ...rewrite(2, 5, ""), shown: "in place" }] },
      "Rewrite in place of the print changed from bars 3–6 to bars 3–5 (was: tremolo).",
    ],
  ])("%s", (_name, a, b, sentence) => {
    const found = compare(edition(a), edition(b));
    expect(found.map((difference) => difference.sentence)).toEqual([sentence]);
    expect(found[0]?.mark).not.toBeNull();
  });

  test("as what an edition was frozen is no difference", () => {
    expect(compare(edition({ schema: 1 }), edition())).toEqual([]);
    expect(isSameEdition(edition({ schema: 1 }), edition())).toBe(true);
    expect(isSameEdition(edition({ schema: 1 }), edition({ breaths: [breath(1)] }))).toBe(false);
  });

  test("another file is not compared bar by bar", () => {
    const other = edition({ sourceHash: hashText("another"), cuts: [cut(8, 12)] });
    expect(compare(edition(), other).map(({ kind }) => kind)).toEqual(["source-changed"]);
  });
});

const somePlace = fc.tuple(fc.nat(9), fc.integer({ min: 1, max: 9 }));
const someEdition = fc
  .record({
    cuts: fc.array(somePlace, { maxLength: 2 }),
    tempi: fc.uniqueArray(fc.record({ barIndex: fc.nat(19), qpm: fc.integer({ min: 40, max: 200 }) }), {
      maxLength: 3,
      selector: ({ barIndex }) => barIndex,
    }),
  })
  .map(({ cuts, tempi }) =>
    edition({
      // Each cut in a half of its own, so that they do not overlap.
      cuts: cuts.map(([from, length], half) =>
        cut(half * 10 + Math.min(from, 9 - length), half * 10 + Math.min(from, 9 - length) + length),
      ),
      tempo: {
        ...printedTempo,
        tempi: tempi.map(({ barIndex, qpm }) => ({ at: { barIndex, offset: "0" }, quartersPerMinute: qpm })),
      },
    }),
  );

describe("laws", () => {
  test("an edition does not differ from itself, nor from its cuts in another order", () => {
    fc.assert(
      fc.property(someEdition, (one) => {
        expect(compare(one, { ...one, cuts: one.cuts.toReversed() })).toEqual([]);
        expect(hashEdition({ ...one, cuts: one.cuts.toReversed() })).toBe(hashEdition(one));
      }),
    );
  });

  test("no difference exactly when the hash is the same", () => {
    fc.assert(
      fc.property(someEdition, someEdition, (a, b) => {
        // The order in which tempi were entered is settled before they are stored.
        const sorted = (one: EditionContent) => ({
          ...one,
          tempo: { ...one.tempo, tempi: one.tempo.tempi.toSorted((x, y) => x.at.barIndex - y.at.barIndex) },
        });
        expect(compare(a, b).length === 0).toBe(hashEdition(sorted(a)) === hashEdition(sorted(b)));
      }),
    );
  });

  test("in one tempo the differences add up to the difference of the running times", () => {
    fc.assert(
      fc.property(someEdition, someEdition, (a, b) => {
        const [plainA, plainB] = [a, b].map((one) => ({ ...one, tempo: printedTempo }));
        if (!plainA || !plainB) return;
        const sum = compare(plainA, plainB).reduce((total, { secondsLonger }) => total + secondsLonger, 0);
        expect(sum).toBeCloseTo(timeEdition(score, plainB).seconds - timeEdition(score, plainA).seconds, 6);
      }),
    );
  });
});
