import { z } from "zod";
import { checkCut } from "@/lib/cuts/check-cut";
import { nameCut } from "@/lib/cuts/name-cut";
import { findOverlap } from "@/lib/cuts/overlapping-cuts";
import { sayCutProblem } from "@/lib/cuts/say-cut-problem";
import { toCutSpan } from "@/lib/edition/cut-terms";
import { positionTermsSchema } from "@/lib/edition/position-terms";
import { failure, type Result, success } from "@/lib/score/result";
import { parseInput } from "@/lib/store/parse-input";
import { readPieceScore } from "@/lib/store/pieces/read-piece-score";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";
import type { DeskWeight } from "./desk/desk";
import { weighForDesk } from "./desk/weigh";
import { inTimeOf, readPieceOnce } from "./read-desk";

const weighSchema = z.object({
  from: positionTermsSchema,
  to: positionTermsSchema,
  /** The number it would go under: an agreed cut of that number would give way to it. Null for a new one. */
  number: z.int().min(1).nullable(),
});

export interface WeighedCut {
  /** "bars 85–96". */
  readonly name: string;
  readonly weight: DeskWeight;
}

/** What a cut would do with the cuts that are agreed. Changes nothing; whoever may read the piece may ask. */
export async function weighNewCut(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<WeighedCut, StoreProblem>> {
  const asked = parseInput(weighSchema, input);
  if (!asked.ok) return asked;
  const [piece, music, proposals] = await Promise.all([
    readPieceOnce(viewer.userId, pieceId),
    readPieceScore(viewer, pieceId),
    listProposals(viewer, pieceId),
  ]);
  if (!piece.ok) return piece;
  if (!music.ok) return music;
  if (!proposals.ok) return proposals;
  const cut = toCutSpan(asked.value);
  const checked = checkCut(music.value.score, cut);
  if (!checked.ok) return failure({ kind: "invalid-input", sentence: sayCutProblem(checked.problem) });
  const agreed = proposals.value
    .filter(({ state, number, terms }) => {
      const isOther = number !== asked.value.number && terms.sourceHash === music.value.sourceHash;
      return state === "agreed" && isOther;
    })
    .map(({ number, terms }) => ({ ...toCutSpan(terms), number }));
  const overlap = findOverlap(agreed, cut);
  if (overlap) {
    const sentence = `Cut ${overlap.number} (${nameCut(music.value.score, overlap)}) is agreed and has some of these bars.`;
    return failure({ kind: "conflict", sentence });
  }
  const weight = weighForDesk(inTimeOf(piece.value, music.value), agreed, cut);
  return success({ name: nameCut(music.value.score, cut), weight });
}
