import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { applyChanges } from "@/lib/edition/apply-changes";
import { type CutTerms, toCutTerms } from "@/lib/edition/cut-terms";
import { type EditionContent, hashEdition, noMarks } from "@/lib/edition/edition-content";
import { findChanges } from "@/lib/edition/find-changes";
import { hashText } from "@/lib/edition/hash-terms";
import { mergeEditions } from "@/lib/edition/merge-editions";
import { sharesMusic } from "@/lib/edition/pair-cuts";
import { printedTempo, sortTempoTerms } from "@/lib/edition/tempo-terms";
import { arbitraryEdition } from "@/test/builders/arbitrary-editions";
import { at } from "@/test/builders/build-score";

const sourceHash = hashText("a source");
const cut = (from: number, to: number) => toCutTerms({ from: at(from), to: at(to) }, sourceHash);
const edition = (...cuts: CutTerms[]): EditionContent => ({
  ...{ ...noMarks, schema: 2, sourceHash, partRoles: { P1: "solo" }, tempo: printedTempo },
  cuts,
});

const whereTo = ({ at: place, from, to }: Record<string, unknown>) => JSON.stringify([place, from, to]);

/** Of one source, as editions are kept: nothing twice in a list, tempi in the order of the page, one at a place. */
const ofOneSource: fc.Arbitrary<EditionContent> = arbitraryEdition.map((content) => {
  const once = <Terms>(list: Terms[]) => [...new Map(list.map((one) => [JSON.stringify(one), one])).values()];
  return {
    ...content,
    schema: 2,
    tempo: sortTempoTerms({
      ...content.tempo,
      tempi: [...new Map(content.tempo.tempi.map((one) => [whereTo(one), one])).values()],
      timings: [...new Map(content.tempo.timings.map((one) => [whereTo(one), one])).values()],
    }),
    sourceHash,
    cuts: content.cuts.map((terms) => ({ ...terms, sourceHash })),
    rewrites: content.rewrites.map((terms) => ({ ...terms, sourceHash })),
    ...{ breaths: once(content.breaths), cues: once(content.cues), remarks: once(content.remarks) },
  };
});

describe("laws", () => {
  test("changes that touch nothing of each other merge to both", () => {
    let merged = 0;
    fc.assert(
      fc.property(ofOneSource, ofOneSource, fc.infiniteStream(fc.boolean()), (base, target, sides) => {
        const changes = findChanges(base, target);
        const isMine = changes.map(() => sides.next().value);
        const [mine, theirs] = [true, false].map((side) =>
          applyChanges(
            base,
            changes.filter((_, index) => isMine[index] === side),
          ),
        );
        fc.pre(mine?.ok === true && theirs?.ok === true);
        if (!mine?.ok || !theirs?.ok) return;
        const result = mergeEditions(base, mine.value, theirs.value);
        expect(result.offers.filter(({ conflict }) => conflict !== null)).toEqual([]);
        expect(hashEdition(result.merged)).toBe(hashEdition(target));
        merged += 1;
      }),
      { numRuns: 150 },
    );
    expect(merged).toBe(150);
  });

  test("merging with what both began with changes nothing, either way round", () => {
    fc.assert(
      fc.property(ofOneSource, ofOneSource, (base, one) => {
        const nothing = mergeEditions(base, one, base);
        expect(nothing.offers).toEqual([]);
        expect(nothing.merged).toEqual(one);
        expect(hashEdition(mergeEditions(base, base, one).merged)).toBe(hashEdition(one));
        expect(mergeEditions(base, one, one).offers).toEqual([]);
      }),
      { numRuns: 150 },
    );
  });

  test("without a conflict it does not matter who merges whom; with one both have one", () => {
    fc.assert(
      fc.property(ofOneSource, ofOneSource, ofOneSource, (base, a, b) => {
        const [there, back] = [mergeEditions(base, a, b), mergeEditions(base, b, a)];
        const hasConflict = ({ offers }: typeof there) => offers.some(({ conflict }) => conflict !== null);
        expect(hasConflict(there)).toBe(hasConflict(back));
        if (!hasConflict(there)) expect(hashEdition(there.merged)).toBe(hashEdition(back.merged));
      }),
      { numRuns: 300 },
    );
  });

  test("whatever is merged, no two cuts of it share music", () => {
    fc.assert(
      fc.property(ofOneSource, ofOneSource, ofOneSource, (base, a, b) => {
        const { merged } = mergeEditions(base, a, b);
        const overlaps = merged.cuts.some((one, index) =>
          merged.cuts.slice(index + 1).some((other) => sharesMusic(one, other)),
        );
        expect(overlaps).toBe(false);
      }),
      { numRuns: 150 },
    );
  });
});

describe("cuts that stand against each other", () => {
  const base = edition(cut(8, 12));
  const conflictOf = (mine: EditionContent, theirs: EditionContent) =>
    mergeEditions(base, mine, theirs).offers.map(({ conflict }) => conflict);

  test.each([
    [
      "overlapping: both together are one longer cut",
      edition(cut(8, 12), cut(20, 24)),
      edition(cut(8, 12), cut(22, 28)),
      [{ kind: "cuts", mine: [cut(20, 24)], both: cut(20, 28) }],
    ],
    [
      "nested: both together are the longer one already",
      edition(cut(8, 12), cut(20, 30)),
      edition(cut(8, 12), cut(22, 26)),
      [{ kind: "cuts", mine: [cut(20, 30)], both: null }],
    ],
    [
      "over two of this one's",
      edition(cut(8, 12), cut(20, 22), cut(26, 30)),
      edition(cut(8, 12), cut(21, 28)),
      [{ kind: "cuts", mine: [cut(20, 22), cut(26, 30)], both: cut(20, 30) }],
    ],
    [
      "one cut moved two ways",
      edition(cut(8, 14)),
      edition(cut(6, 12)),
      [{ kind: "cuts", mine: [cut(8, 14)], both: cut(6, 14) }],
    ],
    ["opened here, moved there", edition(), edition(cut(8, 14)), [{ kind: "cuts", mine: [], both: null }]],
    [
      "moved here, opened there",
      edition(cut(8, 14)),
      edition(),
      [{ kind: "cuts", mine: [cut(8, 14)], both: null }],
    ],
    [
      "a union that would run into a third cut is none",
      edition(cut(8, 12), cut(20, 24), cut(26, 28)),
      edition(cut(8, 12), cut(22, 30)),
      [{ kind: "cuts", mine: [cut(20, 24), cut(26, 28)], both: cut(20, 30) }],
    ],
    ["opened by both", edition(), edition(), []],
    ["moved alike by both", edition(cut(8, 14)), edition(cut(8, 14)), []],
    ["moved there, as it was here", edition(cut(8, 12)), edition(cut(8, 14)), [null]],
  ] as const)("%s", (_name, mine, theirs, expected) => {
    expect(conflictOf(mine, theirs)).toEqual(expected);
  });

  test("two of the start that became one there are given up here too", () => {
    const start = edition(cut(8, 12), cut(14, 18));
    const { offers, merged } = mergeEditions(start, start, edition(cut(8, 18)));
    expect(offers.map(({ conflict }) => conflict)).toEqual([null, null, null]);
    expect(merged.cuts).toEqual([cut(8, 18)]);
  });

  test("what both put in a cut's place is settled, whoever says which of two it became", () => {
    const [start, one, two] = [edition(cut(8, 20)), cut(6, 10), cut(18, 30)];
    const there = mergeEditions(start, edition(two), edition(one, two));
    const back = mergeEditions(start, edition(one, two), edition(two));
    expect(there.offers).toEqual([{ change: { kind: "cut", before: null, after: one }, conflict: null }]);
    expect(back.offers).toEqual([]);
    expect(there.merged.cuts).toEqual([one, two]);
  });

  test("a breath that both moved alike stays settled where one of them marked another", () => {
    const breathing = (...bars: number[]): EditionContent => ({
      ...edition(),
      breaths: bars.map((barIndex) => ({ at: { barIndex, offset: "1" } })),
    });
    const [start, mine, theirs] = [breathing(9), breathing(10), breathing(8, 10)];
    expect(mergeEditions(start, mine, theirs).merged).toEqual(theirs);
    expect(mergeEditions(start, theirs, mine)).toEqual({ offers: [], merged: theirs });
  });

  test("each alone leaves the rest, both together do not", () => {
    const bars = (cuts: readonly CutTerms[]) =>
      cuts.reduce((sum, { from, to }) => sum + to.barIndex - from.barIndex, 0);
    const brokenNeeds = (cuts: readonly CutTerms[]) => (bars(cuts) > 6 ? ["lip"] : []);
    const merge = mergeEditions(edition(), edition(cut(20, 24)), edition(cut(30, 34)), brokenNeeds);
    expect(merge.offers.map(({ conflict }) => conflict)).toEqual([
      { kind: "rest", mine: [cut(20, 24)], needs: ["lip"] },
    ]);
    expect(merge.merged.cuts).toEqual([cut(20, 24)]);
    expect(
      mergeEditions(edition(), edition(), edition(cut(30, 34)), brokenNeeds).offers[0]?.conflict,
    ).toBeNull();
  });

  test("a fermata held differently is decided otherwise here", () => {
    const held = (fermataFactor: number) => ({ ...base, tempo: { ...printedTempo, fermataFactor } });
    const { offers, merged } = mergeEditions(base, held(2), held(3));
    expect(offers).toMatchObject([{ conflict: { kind: "decided", problem: { kind: "allowance-differs" } } }]);
    expect(merged.tempo.fermataFactor).toBe(2);
  });

  test("versions of different files are no versions of one piece", () => {
    const other = { ...edition(), sourceHash: hashText("another") };
    expect(() => mergeEditions(base, base, other)).toThrow(RangeError);
  });
});
