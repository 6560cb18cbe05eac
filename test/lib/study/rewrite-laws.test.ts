import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hashText } from "@/lib/edition/hash-terms";
import { rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import { assessHands } from "@/lib/hands/assess-hands";
import { readTree } from "@/lib/musicxml/read-tree";
import { writeRewrites } from "@/lib/musicxml/rewrite/write-rewrites";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { writeScore } from "@/lib/musicxml/write-score";
import { type BarEvent, midiOf, soundedBy } from "@/lib/rewrites/bar-event";
import { barsOfTerms } from "@/lib/rewrites/bars-of-terms";
import { checkRewriteFit } from "@/lib/rewrites/check-rewrite-fit";
import { readBarEvents } from "@/lib/rewrites/read-bar-events";
import { assignRoles } from "@/lib/score/assign-roles";
import { writeQuarters } from "@/lib/score/quarters";
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

  test("is found again, note for note, in the music that it is written into", () => {
    fc.assert(
      fc.property(arbitraryReduction, arbitraryHands, (made, hands) => {
        const tree = readTree(new TextEncoder().encode(writeScore(made)));
        if (!tree.ok) throw new Error(tree.problem.kind);
        const roles = Object.fromEntries(made.parts.map(({ id, role }) => [id, role]));
        const score = assignRoles(scoreFromTree(tree.value).score, roles);
        for (const { terms } of offersFor(score, hands, 1)) {
          const written = writeRewrites(tree.value, score, [{ ...terms, shown: "in place" }]);
          const again = assignRoles(scoreFromTree(written).score, roles);
          expect(again.bars.map(({ length }) => length)).toEqual(score.bars.map(({ length }) => length));
          for (const [index, bar] of barsOfTerms(terms).entries()) {
            const found = keysOf(eventsIn(again, terms.from.barIndex + index));
            expect(keysOf(bar).filter((key) => !found.includes(key))).toEqual([]);
          }
        }
      }),
      { numRuns: 20, endOnFailure: true },
    );
  });
});

/** Where keys are struck: staff, place, key. */
const keysOf = (events: readonly BarEvent[]): string[] =>
  events.flatMap((event) =>
    soundedBy(event).map((pitch) => `${event.staff} ${writeQuarters(event.offset)} ${midiOf(pitch)}`),
  );

function eventsIn(score: Score, barIndex: number): BarEvent[] {
  const part = score.parts.find(({ role }) => role === "reduction");
  return part ? readBarEvents(score, part, barIndex) : [];
}
