import { nameCut } from "@/lib/cuts/name-cut";
import { findOverlap } from "@/lib/cuts/overlapping-cuts";
import { type CutTerms, cutTermsSchema, toCutSpan } from "@/lib/edition/cut-terms";
import { failure, type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import type { PieceChangeWork } from "../in-piece";
import type { StoreProblem } from "../store-problem";

/**
 * Refuses a cut that takes bars which an agreed cut has taken already.
 *
 * @param number the number it goes under; an agreed cut of that number does not stand in its way but gives way to it.
 */
export async function refuseOverlap(
  { tx, membership }: PieceChangeWork,
  score: Score,
  terms: CutTerms,
  number: number | null,
): Promise<Result<null, StoreProblem>> {
  const rows = await tx.proposal.findMany({
    where: { pieceId: membership.pieceId, kind: "cut", state: "agreed", NOT: { number: number ?? 0 } },
    select: { number: true, terms: true },
  });
  const agreed = rows.map((row) => ({
    number: row.number,
    span: toCutSpan(cutTermsSchema.parse(row.terms)),
  }));
  const cut = toCutSpan(terms);
  const inTheWay = agreed.find(({ span }) => findOverlap([span], cut) !== null);
  if (!inTheWay) return success(null);
  return failure({
    kind: "conflict",
    sentence: `Cut ${inTheWay.number} (${nameCut(score, inTheWay.span)}) is agreed and has some of these bars. Reopen it or propose a change to it.`,
  });
}
