import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readScore } from "@/lib/musicxml/read-score";
import { readTree } from "@/lib/musicxml/read-tree";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { writeScore } from "@/lib/musicxml/write-score";
import { addQuarters, compareQuarters, isEqualQuarters, noQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { arbitraryScore } from "@/test/builders/arbitrary-score";

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

function reread(score: Score): Score {
  const read = readScore(bytesOf(writeScore(score)));
  if (!read.ok) throw new Error(read.problem.kind);
  return read.value.score;
}

describe("laws of writing and reading", { timeout: 120_000 }, () => {
  it("reads back every score as it was written", () => {
    fc.assert(
      fc.property(arbitraryScore, (score) => {
        expect(reread(score)).toEqual(score);
      }),
      { numRuns: 150 },
    );
  });

  it("reads the same from a stream and from a tree", () => {
    fc.assert(
      fc.property(arbitraryScore, (score) => {
        const tree = readTree(bytesOf(writeScore(score)));
        if (!tree.ok) throw new Error(tree.problem.kind);
        expect(scoreFromTree(tree.value).score).toEqual(score);
      }),
      { numRuns: 40 },
    );
  });

  it("keeps bars that tile the piece, with every onset inside its bar", () => {
    fc.assert(
      fc.property(arbitraryScore, (score) => {
        const read = reread(score);
        let end = noQuarters;
        for (const bar of read.bars) {
          expect(isEqualQuarters(bar.start, end)).toBe(true);
          end = addQuarters(bar.start, bar.length);
        }
        for (const item of read.parts.flatMap(({ notes, rests }) => [...notes, ...rests])) {
          const bar = read.bars[item.barIndex];
          if (!bar) throw new Error(`no bar ${item.barIndex}`);
          expect(compareQuarters(bar.start, item.onset)).toBeLessThanOrEqual(0);
          expect(compareQuarters(item.onset, addQuarters(bar.start, bar.length))).toBeLessThanOrEqual(0);
        }
      }),
      { numRuns: 60 },
    );
  });
});
