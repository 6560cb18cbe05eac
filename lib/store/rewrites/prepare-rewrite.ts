import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { checkRewriteFit } from "@/lib/rewrites/check-rewrite-fit";
import { failure, type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import { cleanLine } from "../clean-text";
import { readPieceScore } from "../pieces/read-piece-score";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

export interface PreparedRewrite {
  readonly terms: RewriteTerms;
  readonly score: Score;
}

/** The terms of a rewrite that fits the piece's music. A source never changes, so this holds for good. */
export async function prepareRewrite(
  viewer: Viewer,
  pieceId: string,
  terms: RewriteTerms,
): Promise<Result<PreparedRewrite, StoreProblem>> {
  const read = await readPieceScore(viewer, pieceId);
  if (!read.ok) return read;
  const { score, sourceHash } = read.value;
  if (terms.sourceHash !== sourceHash) return failure(otherSourceOfRewrite);
  const checked = checkRewriteFit(score, { ...terms, words: cleanLine(terms.words) });
  if (!checked.ok) return failure({ kind: "invalid-input", sentence: checked.problem });
  return success({ terms: checked.value, score });
}

/** The bars that the rewrite was made for are not the bars of the piece's source. */
export const otherSourceOfRewrite: StoreProblem = {
  kind: "stale-terms",
  sentence: "This rewrite was made for another file. Open the piece again and write it anew.",
};
