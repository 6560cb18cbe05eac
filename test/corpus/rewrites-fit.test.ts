import { describe, expect, it } from "vitest";
import { rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import { readScore } from "@/lib/musicxml/read-score";
import { checkRewriteFit } from "@/lib/rewrites/check-rewrite-fit";
import { readBarEvents } from "@/lib/rewrites/read-bar-events";
import { toRewriteTerms } from "@/lib/rewrites/to-rewrite-terms";
import { writeQuarters } from "@/lib/score/quarters";
import { corpusFolder, corpusScores, readCorpusFile } from "./corpus-folder";

const sourceHash = "0".repeat(64);

/** However a real file fills its voices, a rewrite that changes nothing in a bar of it fits. */
describe.skipIf(corpusFolder === null)("every bar of a real reduction may be kept as a rewrite", () => {
  it.each(corpusScores("solo-piano", "songs"))("%s", (file) => {
    const read = readScore(readCorpusFile(file));
    if (!read.ok) throw new Error(read.problem.kind);
    const { score } = read.value;
    const part = score.parts.find(({ role }) => role === "reduction");
    if (!part) return;
    const faults = score.bars.flatMap(({ index, length, label }) => {
      const to = { barIndex: index, offset: writeQuarters(length) };
      const bars = [readBarEvents(score, part, index)];
      const about = { sourceHash, partId: part.id, fromBar: index, words: "" };
      const checked = checkRewriteFit(
        score,
        rewriteTermsSchema.parse(toRewriteTerms({ ...about, to, bars })),
      );
      return checked.ok ? [] : [`${label}: ${checked.problem}`];
    });
    expect(faults).toEqual([]);
  });
});
