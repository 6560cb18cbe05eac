import { describe, expect, test } from "vitest";
import { findRewriteFaults } from "@/lib/archive/find-rewrite-faults";
import type { PieceArchive } from "@/lib/archive/piece-archive";
import { hashTerms } from "@/lib/edition/hash-terms";
import { buildFullPiece } from "@/test/builders/build-piece-archive";
import { buildRewrite } from "@/test/builders/build-rewrite";

type Rewrite = PieceArchive["rewrites"][number];
type Question = PieceArchive["rewriteProposals"][number];

const full = buildFullPiece();
const sourceHash = full.piece.sources[0]?.hash ?? "";

function rewrite(number: number, bar: number, change: Partial<Rewrite> = {}): Rewrite {
  const terms = buildRewrite(sourceHash, bar);
  return {
    ...{ key: `rewrite-${number}`, number, by: "p1", terms, termsHash: hashTerms(terms), sharing: "told" },
    ...{ createdAt: "2026-03-01T10:00:00.000Z", replaces: null, replacedAt: null, takenOffAt: null },
    ...{ proposal: null, editions: [], events: [] },
    ...change,
  };
}

function question(number: number, bar: number, state: Question["state"]): Question {
  const terms = buildRewrite(sourceHash, bar);
  return {
    ...{ key: `proposal-${number}`, number, terms, termsHash: hashTerms(terms), reason: "", state },
    ...{ proposedBy: "p1", createdAt: "2026-03-01T10:00:00.000Z", supersedes: null, answers: [] },
  };
}

const asked = (number: number, bar: number, key: string) =>
  rewrite(number, bar, { sharing: "asked", proposal: key });
const faultsOf = (rewrites: readonly Rewrite[], rewriteProposals: readonly Question[] = []) =>
  findRewriteFaults({ ...full, rewrites, rewriteProposals });

describe("rewrites of an archive", () => {
  test("that hold have no fault", () => {
    expect(findRewriteFaults(full)).toEqual([]);
    expect(faultsOf([rewrite(1, 2), asked(2, 3, "proposal-2")], [question(2, 3, "agreed")])).toEqual([]);
    // What is declined, replaced or taken off may lie in the bars of what stands.
    const off = { takenOffAt: "2026-03-02T10:00:00.000Z" };
    const aside = [rewrite(1, 2), asked(2, 2, "proposal-2"), rewrite(3, 2, off)];
    expect(faultsOf(aside, [question(2, 2, "declined")])).toEqual([]);
  });

  test.each<[string, Rewrite[], Question[], RegExp]>([
    ["a question about nothing", [], [question(1, 2, "open")], /proposal-1 is about no version/],
    ["a yes to nothing", [], [question(1, 2, "agreed")], /proposal-1 is about no version/],
    ["other notes than the hash says", [rewrite(1, 2, { termsHash: "0".repeat(64) })], [], /other notes/],
    ["asked, without a question", [rewrite(1, 2, { sharing: "asked" })], [], /is not what the other player/],
    [
      "asked about other notes",
      [asked(1, 2, "proposal-1")],
      [question(1, 3, "agreed")],
      /is not what the other player/,
    ],
    [
      "one question about two",
      [asked(1, 2, "proposal-1"), asked(1, 2, "proposal-1")],
      [question(1, 2, "declined")],
      /two versions say/,
    ],
    ["two that stand in one bar", [rewrite(1, 2), rewrite(2, 2)], [], /rewrite-2 stands in bars/],
    ["in an edition that lacks it", [rewrite(1, 2, { editions: [1] })], [], /not in edition № 1/],
  ])("%s", (_name, rewrites, questions, fault) => {
    expect(faultsOf(rewrites, questions)).toEqual([expect.stringMatching(fault)]);
  });
});
