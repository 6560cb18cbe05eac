import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { toCutTerms } from "@/lib/edition/cut-terms";
import { type EditionContent, hashEdition, noMarks } from "@/lib/edition/edition-content";
import { hashText } from "@/lib/edition/hash-terms";
import { contentAfter, isPlayedAlike, isRestored, planRestoration } from "@/lib/edition/plan-restoration";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { arbitraryEdition } from "@/test/builders/arbitrary-editions";
import { buildRewrite } from "@/test/builders/build-rewrite";
import { at } from "@/test/builders/build-score";

const sourceHash = hashText("a source");
const cut = (from: number, to: number) => toCutTerms({ from: at(from), to: at(to) }, sourceHash);
const edition = (changes: Partial<EditionContent> = {}): EditionContent => ({
  ...{ ...noMarks, schema: 2, sourceHash, partRoles: { P1: "solo" }, tempo: printedTempo, cuts: [] },
  ...changes,
});
const soloist = { rewrites: false };
const pianist = { rewrites: true };
const ofOneSource = arbitraryEdition.map((content) => ({
  ...content,
  sourceHash,
  cuts: content.cuts.map((terms) => ({ ...terms, sourceHash })),
  rewrites: content.rewrites.map((terms) => ({ ...terms, sourceHash })),
}));

test("once everything is agreed it is played as the old one was, and its marks are those of now", () => {
  fc.assert(
    fc.property(ofOneSource, ofOneSource, (now, old) => {
      const after = contentAfter(now, planRestoration(now, old, soloist));
      expect(isPlayedAlike(after, old)).toBe(true);
      expect(hashEdition({ ...after, ...cutTimeAndPartsOf(now) })).toBe(hashEdition(now));
      expect(isRestored(planRestoration(after, old, soloist))).toBe(true);
    }),
    { numRuns: 100 },
  );
});

test("for the pianist the rewrites are those of the old one too", () => {
  fc.assert(
    fc.property(ofOneSource, ofOneSource, (now, old) => {
      const plan = planRestoration(now, old, pianist);
      const after = contentAfter(now, plan);
      expect(hashEdition({ ...after, ...cutTimeAndPartsOf(now), rewrites: now.rewrites })).toBe(
        hashEdition(now),
      );
      expect(hashEdition({ ...after, ...otherMarksOf(old), schema: 2 })).toBe(
        hashEdition({ ...old, schema: 2 }),
      );
      expect(plan.left.some(({ kind }) => kind === "rewrite")).toBe(false);
    }),
    { numRuns: 100 },
  );
});

const otherMarksOf = ({ breaths, cues, remarks }: EditionContent) => ({ breaths, cues, remarks });

const cutTimeAndPartsOf = ({ cuts, tempo, partRoles }: EditionContent) => ({ cuts, tempo, partRoles });

describe("what it takes", () => {
  test("cuts are reopened or put forward; one that moved stands in the place of what it was", () => {
    const now = edition({ cuts: [cut(9, 13), cut(18, 20)] });
    const old = edition({ cuts: [cut(9, 12), cut(14, 16)] });
    expect(planRestoration(now, old, pianist)).toEqual({
      reopened: [cut(9, 13), cut(18, 20)],
      proposed: [
        { terms: cut(9, 12), insteadOf: cut(9, 13) },
        { terms: cut(14, 16), insteadOf: null },
      ],
      ...{ takenOff: [], broughtBack: [], tempo: null, partRoles: null, left: [] },
    });
  });

  test("tempi and parts are set, breaths are left to their author", () => {
    const now = edition({ breaths: [{ at: { barIndex: 4, offset: "0" } }] });
    const old = edition({ tempo: { ...printedTempo, fermataFactor: 3 }, partRoles: { P1: "other" } });
    const plan = planRestoration(now, old, soloist);
    expect(plan).toMatchObject({ reopened: [], proposed: [], tempo: old.tempo, partRoles: old.partRoles });
    expect(plan.left.map(({ kind }) => kind)).toEqual(["breath"]);
    expect(isRestored(planRestoration(now, edition(), pianist))).toBe(true);
  });

  test("rewrites are the pianist's to take off and to bring back", () => {
    const [one, other, third] = [
      buildRewrite(sourceHash, 2),
      buildRewrite(sourceHash, 2, 3, "G"),
      buildRewrite(sourceHash, 8),
    ];
    const now = edition({ rewrites: [one] });
    const old = edition({ rewrites: [other, third] });
    expect(planRestoration(now, old, pianist)).toMatchObject({
      takenOff: [one],
      broughtBack: [other, third],
      left: [],
    });
    const plan = planRestoration(now, old, soloist);
    expect(plan).toMatchObject({ takenOff: [], broughtBack: [] });
    expect(plan.left.map(({ kind }) => kind)).toEqual(["rewrite", "rewrite"]);
    expect([isRestored(plan), isRestored(planRestoration(now, old, pianist))]).toEqual([true, false]);
  });

  test("an edition of another file cannot be planned for", () => {
    const old = edition({ sourceHash: hashText("another") });
    expect(() => planRestoration(edition(), old, pianist)).toThrow(RangeError);
  });
});
