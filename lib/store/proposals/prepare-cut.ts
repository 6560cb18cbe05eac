import { checkCut } from "@/lib/cuts/check-cut";
import { sayCutProblem } from "@/lib/cuts/say-cut-problem";
import { type CutTerms, toCutSpan, toCutTerms } from "@/lib/edition/cut-terms";
import type { PositionTerms } from "@/lib/edition/position-terms";
import { onsetOf } from "@/lib/score/onset-of";
import type { Position } from "@/lib/score/position";
import { positionAt } from "@/lib/score/position-at";
import { failure, type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import { readPieceScore } from "../pieces/read-piece-score";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

export interface PreparedCut {
  readonly terms: CutTerms;
  readonly score: Score;
}

/** The terms of a cut that is possible in the piece's music. A source never changes, so this holds for good. */
export async function prepareCut(
  viewer: Viewer,
  pieceId: string,
  cut: { readonly sourceHash: string; readonly from: PositionTerms; readonly to: PositionTerms },
): Promise<Result<PreparedCut, StoreProblem>> {
  const read = await readPieceScore(viewer, pieceId);
  if (!read.ok) return read;
  const { score, sourceHash } = read.value;
  if (cut.sourceHash !== sourceHash) return failure(otherSource);
  const checked = checkCut(score, toCutSpan(cut));
  if (!checked.ok) return failure({ kind: "invalid-input", sentence: sayCutProblem(checked.problem) });
  // The end of a bar is the start of the next: one place has one spelling, and one hash.
  const place = (position: Position) => positionAt(score, onsetOf(score, position));
  const span = { from: place(checked.value.from), to: place(checked.value.to) };
  return success({ terms: toCutTerms(span, sourceHash), score });
}

/** The bars that the cut was chosen on are not the bars of the piece's source. */
export const otherSource: StoreProblem = {
  kind: "stale-terms",
  sentence: "This cut was chosen on another file. Open the piece again and choose it anew.",
};
