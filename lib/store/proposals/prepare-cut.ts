import { readCutRules } from "@/lib/cuts/check-cut";
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

/** Both ends of a cut, as they are sent. */
export interface CutPlaces {
  readonly from: PositionTerms;
  readonly to: PositionTerms;
}

export interface PreparedCut {
  readonly terms: CutTerms;
  readonly score: Score;
}

/** The terms of a cut that is possible in the piece's music. A source never changes, so this holds for good. */
export async function prepareCut(
  viewer: Viewer,
  pieceId: string,
  { sourceHash, ...cut }: CutPlaces & { readonly sourceHash: string },
): Promise<Result<PreparedCut, StoreProblem>> {
  const prepared = await prepareCuts(viewer, pieceId, sourceHash, [cut]);
  if (!prepared.ok) return prepared;
  const [terms] = prepared.value.terms;
  if (!terms) throw new Error("one cut was prepared, and none came back");
  return success({ terms, score: prepared.value.score });
}

export interface PreparedCuts {
  /** In the order given. */
  readonly terms: readonly CutTerms[];
  readonly score: Score;
}

/** The same for several cuts of one source; the first that is not possible is the problem. */
export async function prepareCuts(
  viewer: Viewer,
  pieceId: string,
  chosenOn: string,
  cuts: readonly CutPlaces[],
): Promise<Result<PreparedCuts, StoreProblem>> {
  const read = await readPieceScore(viewer, pieceId);
  if (!read.ok) return read;
  const { score, sourceHash } = read.value;
  if (chosenOn !== sourceHash) return failure(otherSource);
  const check = readCutRules(score);
  const terms: CutTerms[] = [];
  for (const cut of cuts) {
    const checked = check(toCutSpan(cut));
    if (!checked.ok) return failure({ kind: "invalid-input", sentence: sayCutProblem(checked.problem) });
    // The end of a bar is the start of the next: one place has one spelling, and one hash.
    const place = (position: Position) => positionAt(score, onsetOf(score, position));
    terms.push(toCutTerms({ from: place(checked.value.from), to: place(checked.value.to) }, sourceHash));
  }
  return success({ terms, score });
}

/** The bars that the cut was chosen on are not the bars of the piece's source. */
export const otherSource: StoreProblem = {
  kind: "stale-terms",
  sentence: "This cut was chosen on another file. Open the piece again and choose it anew.",
};
