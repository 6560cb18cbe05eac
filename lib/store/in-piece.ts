import type { Prisma } from "@/generated/prisma/client";
import type { Result } from "@/lib/score/result";
import { now } from "./clock";
import { inTransaction } from "./in-transaction";
import { notify, type PieceChange } from "./notify";
import { type Membership, readMembership } from "./read-membership";
import type { StoreProblem } from "./store-problem";
import type { Viewer } from "./viewer";
import type { PieceAction } from "./who-may";

/** A change to one piece under way: everything in it is stored together or not at all. */
export interface PieceChangeWork {
  readonly tx: Prisma.TransactionClient;
  readonly membership: Membership;
}

/**
 * Changes a piece in one transaction that holds the piece's row: changes to one piece happen one after another,
 * so what `work` reads stays true until it is stored. Nothing is stored when it answers with a problem.
 *
 * @param action what the viewer's role must allow; asked again while the row is held.
 */
export async function inPiece<T>(
  viewer: Viewer,
  pieceId: string,
  action: PieceAction,
  work: (change: PieceChangeWork) => Promise<Result<T, StoreProblem>>,
): Promise<Result<T, StoreProblem>> {
  return inTransaction(async (tx) => {
    // Only a member's change takes the lock: a stranger cannot hold up a piece.
    await tx.$queryRaw`
      SELECT 1 AS held FROM "Piece" WHERE "id" = (
        SELECT "pieceId" FROM "Member"
        WHERE "pieceId" = ${pieceId} AND "userId" = ${viewer.userId} AND "removedAt" IS NULL
      ) FOR NO KEY UPDATE`;
    const membership = await readMembership(viewer, pieceId, action, tx);
    return membership.ok ? work({ tx, membership: membership.value }) : membership;
  });
}

export interface DoneChange {
  /** In the past tense, such as "cut agreed". */
  readonly what: string;
  readonly about: Prisma.InputJsonObject;
  readonly change: PieceChange;
}

/** Writes what was done to the trail and tells everybody who has the piece open. */
export async function noteChange(work: PieceChangeWork, done: DoneChange): Promise<void> {
  const { pieceId, userId } = work.membership;
  await work.tx.auditEntry.create({
    data: { pieceId, userId, what: done.what, about: done.about, at: now() },
  });
  await work.tx.piece.update({ where: { id: pieceId }, data: { changedAt: now() } });
  await notify(work.tx, "piece_changed", { pieceId, what: done.change });
}
