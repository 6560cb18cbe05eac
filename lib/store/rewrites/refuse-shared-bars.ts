import { nameCut } from "@/lib/cuts/name-cut";
import { toCutSpan } from "@/lib/edition/cut-terms";
import { sharesBars } from "@/lib/edition/pair-marks";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { failure, type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import type { PieceChangeWork } from "../in-piece";
import type { StoreProblem } from "../store-problem";
import { findStandingRewrites } from "./standing-rewrites";

/**
 * Refuses a rewrite of bars that another one stands in: nobody plays two things at once.
 *
 * @param number the number it goes under; what stands under that number gives way to it. Null: nothing gives way.
 */
export async function refuseSharedBars(
  { tx, membership }: PieceChangeWork,
  score: Score,
  terms: RewriteTerms,
  number: number | null,
): Promise<Result<null, StoreProblem>> {
  const others = await findStandingRewrites(membership.pieceId, tx);
  const inTheWay = others.find((other) => other.number !== number && sharesBars(other.terms, terms));
  if (!inTheWay) return success(null);
  const where = nameCut(score, toCutSpan(inTheWay.terms));
  const sentence = `Rewrite ${inTheWay.number} (${where}) stands and has some of these bars. Take it off or change it.`;
  return failure({ kind: "conflict", sentence });
}
