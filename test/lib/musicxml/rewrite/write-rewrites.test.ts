import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import { checkSpanners } from "@/lib/musicxml/check-spanners";
import { takeExcerpt } from "@/lib/musicxml/cut/take-excerpt";
import { readScore } from "@/lib/musicxml/read-score";
import { readTree } from "@/lib/musicxml/read-tree";
import { findChangedStaves } from "@/lib/musicxml/rewrite/find-changed-staves";
import { findOssias } from "@/lib/musicxml/rewrite/ossia-part";
import { writeRewrites } from "@/lib/musicxml/rewrite/write-rewrites";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { writeTree } from "@/lib/musicxml/write-tree";
import { comparePositions } from "@/lib/score/position";
import { subtractQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";
import { randomRewrite } from "@/test/builders/random-rewrite";
import { randomNumbers } from "../cut/random-cuts";
import { heardInScore, heardInTerms } from "./heard-notes";

const source = (() => {
  const read = readTree(new TextEncoder().encode(writeSoloAndReduction()));
  if (!read.ok) throw new Error(read.problem.kind);
  // An upbeat, a fermata, triplets and two voices of rests; a whole piece would take long.
  return takeExcerpt(read.value, 22, 36);
})();
const score = scoreFromTree(source).score;
const reduction = score.parts.find(({ role }) => role === "reduction")!;

function readAgain(tree: typeof source): Score {
  const read = readScore(new TextEncoder().encode(writeTree(tree)));
  if (!read.ok) throw new Error(read.problem.kind);
  expect(read.value.notices).toEqual([]);
  return read.value.score;
}

const seeds = fc.integer({ min: 1, max: 2 ** 31 - 1 });

describe("writeRewrites", () => {
  it("in place, reads back as exactly its events, at exactly their lengths, and changes nothing else", () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const rewrite = randomRewrite(randomNumbers(seed), score, reduction, "in place");
        rewriteTermsSchema.parse(rewrite);
        const tree = writeRewrites(source, score, [rewrite]);
        const after = readAgain(tree);
        expect(heardInScore(rewrite, after)).toEqual(heardInTerms(rewrite, score));
        expect(after.bars.map(({ length }) => length)).toEqual(score.bars.map(({ length }) => length));
        expect(outside(after)).toEqual(outside(score));
        expect(checkSpanners(tree)).toEqual([]);

        function outside(of: Score) {
          return of.parts.map(({ id, notes }) =>
            notes
              .filter(({ barIndex, onset }) => {
                const at = { barIndex, offset: subtractQuarters(onset, of.bars[barIndex]!.start) };
                const [from, to] = [rewrite.from, rewrite.to].map(({ barIndex: bar }) => bar);
                return (
                  id !== reduction.id ||
                  comparePositions(at, { ...at, barIndex: from! }) < 0 ||
                  barIndex > to!
                );
              })
              .map(({ id: noteId, onset, duration, sounding }) => ({ noteId, onset, duration, sounding })),
          );
        }
      }),
      { numRuns: 150 },
    );
  });

  it("as an ossia, leaves every printed note and says the rewrite on staves of its own", () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const rewrite = randomRewrite(randomNumbers(seed), score, reduction, "ossia");
        const tree = writeRewrites(source, score, [rewrite]);
        const after = readAgain(tree);
        for (const part of score.parts) {
          expect(after.parts.find(({ id }) => id === part.id)?.notes).toEqual(part.notes);
        }
        const ossias = findOssias(tree);
        const heard = ossias.flatMap(({ part, ofStaff }) =>
          heardInScore(rewrite, after, part.attributes.id, ofStaff),
        );
        // A staff that plays on as printed is not said again.
        const shown = new Set(ossias.map(({ ofStaff }) => ofStaff));
        expect(shown).toEqual(findChangedStaves(rewrite, score));
        const isShown = (line: string) => shown.has(Number(line.split(" ")[0]));
        expect(heard.sort()).toEqual(heardInTerms(rewrite, score).filter(isShown));
        expect(checkSpanners(tree)).toEqual([]);
      }),
      { numRuns: 60, examples: [[13]] },
    );
  });

  it("leaves a source without rewrites untouched", () => {
    expect(writeRewrites(source, score, [])).toBe(source);
  });
});
