import { success } from "@/lib/score/result";
import { now } from "../clock";
import { database } from "../database";
import { inTransaction } from "../in-transaction";
import { notify } from "../notify";
import { findWorkingPiece } from "./working-edition";

/**
 * Ends every yes that was given to something else than what stands now: for what changes in the room, where nobody holds
 * the piece. A yes that still fits stays. Whoever has the piece open is told.
 *
 * @returns how many were ended.
 */
export async function endOvertakenApprovals(pieceId: string): Promise<number> {
  const standing = { pieceId, endedAt: null };
  if ((await database().approval.count({ where: standing })) === 0) return 0;
  const ended = await inTransaction(async (tx) => {
    await tx.$queryRaw`SELECT 1 AS held FROM "Piece" WHERE "id" = ${pieceId} FOR NO KEY UPDATE`;
    const { hash } = await findWorkingPiece(pieceId, tx);
    const { count } = await tx.approval.updateMany({
      where: { ...standing, contentHash: { not: hash } },
      data: { endedAt: now() },
    });
    if (count > 0) await notify(tx, "piece_changed", { pieceId, what: "approvals" });
    return success(count);
  });
  return ended.ok ? ended.value : 0;
}
