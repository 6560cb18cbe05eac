import { describe, expect, test } from "vitest";
import type { About } from "@/app/_data/editions/edition-sides";
import { findStep, sayWaiting } from "@/app/_data/editions/merge-step";
import type { EditionChange } from "@/lib/edition/edition-change";
import { hashTerms, hashText } from "@/lib/edition/hash-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { RewriteRecord } from "@/lib/store/rewrites/rewrite-record";
import { buildRewrite } from "@/test/builders/build-rewrite";

const sourceHash = hashText("a source");
const [mine, theirs] = [buildRewrite(sourceHash, 2), buildRewrite(sourceHash, 2, 3, "G")];
const proposal = { id: "p", state: "open", reason: "", proposedBy: "n", answers: [] };

function recordOf(terms: RewriteTerms, state: "stands" | "open" | "off"): RewriteRecord {
  return {
    ...{ id: state, number: 4, terms, termsHash: hashTerms(terms), authorId: "n", reason: "" },
    ...{ sharing: state === "open" ? "asked" : "told", replaces: null, frozenInEditions: [], earlier: [] },
    ...{ createdAt: new Date(0), takenOffAt: state === "off" ? new Date(1) : null },
    proposal: state === "open" ? { ...proposal, state: "open", createdAt: new Date(0) } : null,
    stands: state === "stands",
  };
}

/** What the steps of rewrites look at. */
const aboutOf = (myRole: "pianist" | "soloist", rewrites: readonly RewriteRecord[]) =>
  ({ piece: { myRole }, rewrites, desk: { cuts: [] }, working: {} }) as unknown as About;
const change = (before: RewriteTerms | null, after: RewriteTerms | null): EditionChange => ({
  kind: "rewrite",
  before,
  after,
});

describe("a rewrite of another version of the music", () => {
  const here = aboutOf("pianist", [recordOf(mine, "stands")]);

  test("is put to the other player by the pianist, in the place of what stands in its bars", () => {
    expect(findStep(here, change(mine, theirs))).toEqual({
      ...{ kind: "ask about rewrite", terms: theirs, replaces: "stands" },
    });
    expect(findStep(here, change(null, theirs))).toEqual({
      ...{ kind: "ask about rewrite", terms: theirs, replaces: null },
    });
  });

  test("that is gone there is taken off, where it stands", () => {
    expect(findStep(here, change(mine, null))).toEqual({ kind: "take off rewrite", rewriteId: "stands" });
    expect(findStep(aboutOf("pianist", [recordOf(mine, "off")]), change(mine, null))).toBeNull();
  });

  test("is nobody else's to send", () => {
    const there = aboutOf("soloist", [recordOf(mine, "stands")]);
    for (const one of [change(mine, theirs), change(mine, null)]) expect(findStep(there, one)).toBeNull();
  });

  test("that is put forward here already waits", () => {
    const waiting = aboutOf("pianist", [recordOf(theirs, "open")]);
    expect(sayWaiting(waiting, change(null, theirs))).toBe(
      "Rewrite 4 is put forward here and waits for the soloist.",
    );
    expect(sayWaiting(here, change(null, theirs))).toBeNull();
  });
});
