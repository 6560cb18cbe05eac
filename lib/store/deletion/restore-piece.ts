import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { noteChange } from "../in-piece";
import { inTransaction } from "../in-transaction";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { may } from "../who-may";
import { lastReturn } from "./deletion-days";

/**
 * Brings a deleted piece back, for everybody who belonged to it. Either player may, whoever deleted it.
 *
 * @returns "not-found" for a piece that is not deleted, is gone for good, or that the viewer does not belong to.
 */
export async function restorePiece(viewer: Viewer, pieceId: string): Promise<Result<null, StoreProblem>> {
  const { userId } = viewer;
  return inTransaction(async (tx) => {
    await tx.$queryRaw`
      SELECT 1 AS held FROM "Piece" WHERE "id" = (
        SELECT "pieceId" FROM "Member"
        WHERE "pieceId" = ${pieceId} AND "userId" = ${userId} AND "removedAt" IS NULL
      ) FOR NO KEY UPDATE`;
    const member = await tx.member.findFirst({
      where: { pieceId, userId, removedAt: null, piece: { deletedAt: { gte: lastReturn(now()) } } },
      select: { role: true, user: { select: { name: true } } },
    });
    if (!member) return failure<StoreProblem>({ kind: "not-found" });
    if (!may(member.role, "delete-piece"))
      return failure<StoreProblem>({
        kind: "not-allowed",
        sentence: "Only the two players bring a piece back.",
      });
    await tx.piece.update({ where: { id: pieceId }, data: { deletedAt: null, deletedById: null } });
    await noteChange(
      { tx, membership: { pieceId, userId, role: member.role, name: member.user.name } },
      { what: "piece brought back", about: {}, change: "settings" },
    );
    return success(null);
  });
}
