import { failure, type Result, success } from "@/lib/score/result";
import type { PieceChangeWork } from "../in-piece";
import type { StoreProblem } from "../store-problem";
import { isSeenBy, type RewriteRow, rewriteParts } from "./rewrite-record";

/** A version of a rewrite of the piece that is being changed; one that the viewer does not see is not there. */
export async function findRewrite(
  { tx, membership }: PieceChangeWork,
  rewriteId: string,
): Promise<Result<RewriteRow, StoreProblem>> {
  const row = await tx.rewrite.findFirst({
    where: { id: rewriteId, pieceId: membership.pieceId },
    include: rewriteParts,
  });
  return row && isSeenBy(membership, row) ? success(row) : failure({ kind: "not-found" });
}

/** The same, when no other version has taken its place. */
export async function findCurrentRewrite(
  work: PieceChangeWork,
  rewriteId: string,
): Promise<Result<RewriteRow, StoreProblem>> {
  const found = await findRewrite(work, rewriteId);
  if (!found.ok || found.value.replacedAt === null) return found;
  return failure({
    kind: "stale-terms",
    sentence: `Rewrite ${found.value.number} was changed meanwhile. Look again.`,
  });
}
