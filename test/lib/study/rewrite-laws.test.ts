import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hashText } from "@/lib/edition/hash-terms";
import { rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import { assessHands } from "@/lib/hands/assess-hands";
import { checkRewriteFit } from "@/lib/rewrites/check-rewrite-fit";
import type { Score } from "@/lib/score/score";
import { readTempoMap } from "@/lib/score/tempo-map";
import { assessRewrite } from "@/lib/study/assess-rewrite";
import { type RewriteOffer, rewritePassage } from "@/lib/study/rewrite-passage";
import { arbitraryReduction } from "@/test/builders/arbitrary-reduction";
import { arbitraryHands, arbitraryPiano } from "@/test/lib/hands/arbitrary-piano";

const music = fc.oneof(arbitraryPiano, arbitraryReduction);
const pace = fc.constantFrom(0.7, 1, 1.4);

function offersFor(score: Score, hands: Parameters<typeof assessHands>[2], at: number): RewriteOffer[] {
  const map = readTempoMap(score);
  const { bars: demands } = assessHands(score, map, hands);
  const about = { sourceHash: hashText("a source"), fromBar: 1, toBar: 2, pace: at };
  return rewritePassage({ score, map, hands, demands, ...about });
}

describe("every rewrite that is offered", () => {
  test("is as long as what is printed, voice by voice, and passes as terms", () => {
    fc.assert(
      fc.property(music, arbitraryHands, pace, (score, hands, at) => {
        for (const { terms } of offersFor(score, hands, at)) {
          expect(rewriteTermsSchema.parse(terms)).toEqual(terms);
          expect(checkRewriteFit(score, terms)).toEqual({ ok: true, value: terms });
        }
      }),
      { numRuns: 25, endOnFailure: true },
    );
  });

  test("lies within reach, is easier than the print, and is judged so by whoever asks again", () => {
    let offered = 0;
    fc.assert(
      fc.property(music, arbitraryHands, pace, (score, hands, at) => {
        const offers = offersFor(score, hands, at);
        offered += Math.min(1, offers.length);
        for (const { terms, difficultyBefore, difficultyAfter } of offers) {
          const judged = assessRewrite({ score, map: readTempoMap(score) }, { terms, hands, pace: at });
          expect(judged.isWithinReach).toBe(true);
          expect(judged.difficultyBefore).toBe(difficultyBefore);
          expect(judged.difficultyAfter).toBe(difficultyAfter);
          expect(difficultyAfter).toBeLessThanOrEqual(difficultyBefore);
        }
      }),
      { numRuns: 25, endOnFailure: true },
    );
    // Music that is put together at random lies badly: where nothing is ever offered, nothing is held.
    expect(offered).toBeGreaterThan(0);
  });
});
