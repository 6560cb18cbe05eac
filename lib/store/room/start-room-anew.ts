import type { Prisma } from "@/generated/prisma/client";
import { hasGap } from "@/lib/room/merge-updates";
import { writeAnew } from "@/lib/room/write-anew";
import { database } from "../database";
import { notify } from "../notify";
import { mergeRoomLog } from "./merge-room-log";
import { lockRoom } from "./room-lock";

/** A room after it was started anew. */
export interface StartedRoom {
  readonly title: string;
  readonly epoch: number;
  /** Of the entry that the epoch begins with. */
  readonly sequence: number;
  readonly recordCount: number;
}

/** Whoever writes in the room meanwhile waits. */
const limits = { maxWait: 20_000, timeout: 120_000 };

/**
 * Starts a room anew: the records as they stand are written into a fresh document, as the first entry of the next
 * epoch, and everybody in the room is sent to it. To be done by an operator after the database was put back to an
 * earlier state, as the copies that people keep then know more than the log. They are not merged into the new
 * room by themselves; what is theirs in them is kept on their devices and offered to them there. The log of the
 * earlier epochs stays.
 *
 * There is no viewer: nobody may do this through the product.
 *
 * @returns null when there is no such piece.
 * @throws Error if the log is not whole: nothing is changed then.
 */
export function startRoomAnew(pieceId: string): Promise<StartedRoom | null> {
  return database().$transaction(async (tx) => {
    await lockRoom(tx, pieceId);
    const piece = await holdPiece(tx, pieceId);
    if (piece === null) return null;
    const { update, recordCount } = await readAnew(tx, pieceId, piece);
    const epoch = piece.epoch + 1;
    const sequence = piece.sequence + 1;
    await tx.piece.update({ where: { id: pieceId }, data: { roomEpoch: epoch, roomSequence: sequence } });
    await tx.roomUpdate.create({
      data: { pieceId, epoch, sequence, update: Buffer.from(update), userId: null },
    });
    await notify(tx, "room_started_anew", { pieceId, epoch });
    return { title: piece.title, epoch, sequence, recordCount };
  }, limits);
}

/** Every piece, oldest first. */
export async function listRooms(): Promise<string[]> {
  const pieces = await database().piece.findMany({ orderBy: { createdAt: "asc" }, select: { id: true } });
  return pieces.map(({ id }) => id);
}

interface HeldPiece {
  readonly title: string;
  readonly epoch: number;
  readonly sequence: number;
}

/** From here on the log of the piece does not grow. */
async function holdPiece(tx: Prisma.TransactionClient, pieceId: string): Promise<HeldPiece | null> {
  const [piece] = await tx.$queryRaw<HeldPiece[]>`
    SELECT "title", "roomEpoch" AS "epoch", "roomSequence" AS "sequence"
    FROM "Piece" WHERE "id" = ${pieceId} FOR NO KEY UPDATE`;
  return piece ?? null;
}

async function readAnew(tx: Prisma.TransactionClient, pieceId: string, { sequence }: HeldPiece) {
  // Not the piece's epoch: had that been raised without a first entry, the room would begin empty.
  const { _max: last } = await tx.roomUpdate.aggregate({ where: { pieceId }, _max: { epoch: true } });
  const merged = await mergeRoomLog(tx, pieceId, last.epoch ?? 1);
  if (merged.sequence !== sequence)
    throw new Error(`the log ends at ${merged.sequence} and not at ${sequence}`);
  if (hasGap(merged.doc)) throw new Error("the log of the room has a gap");
  const anew = writeAnew(merged.doc);
  merged.doc.destroy();
  return anew;
}
