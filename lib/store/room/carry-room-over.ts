import type { Prisma } from "@/generated/prisma/client";
import { carryMarksOver } from "@/lib/room/carry-over";
import { hasGap } from "@/lib/room/merge-updates";
import { mergeRoomLog } from "./merge-room-log";

/**
 * Begins the room of a new branch with the breaths that stand in the piece's room, in their authors' names. No person
 * could write them so; the store does, as it does when a room starts anew: they are the first entry of the log, and that
 * entry names nobody. To be called while the piece is held, so that its log does not grow meanwhile.
 *
 * @throws Error if the log of the piece's room is not whole: then no branch is made.
 */
export async function carryRoomOver(
  tx: Prisma.TransactionClient,
  pieceId: string,
  branchId: string,
): Promise<void> {
  const { roomEpoch } = await tx.piece.findUniqueOrThrow({
    where: { id: pieceId },
    select: { roomEpoch: true },
  });
  const { doc } = await mergeRoomLog(tx, pieceId, roomEpoch);
  if (hasGap(doc)) throw new Error("the log of the room has a gap");
  const marks = carryMarksOver(doc);
  doc.destroy();
  if (marks === null) return;
  await tx.piece.update({ where: { id: branchId }, data: { roomSequence: 1 } });
  await tx.roomUpdate.create({
    data: {
      ...{ pieceId: branchId, epoch: 1, sequence: 1, userId: null },
      update: Buffer.from(marks.update),
    },
  });
}
