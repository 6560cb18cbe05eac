import type { Prisma } from "@/generated/prisma/client";
import { hasGap } from "@/lib/room/merge-updates";
import { openSnapshot } from "@/lib/room/open-snapshot";
import { readStandingMarks, type StandingMarks } from "@/lib/room/standing-marks";
import { mergeRoomLog } from "./merge-room-log";
import { type RoomLog, readRoomLogIn } from "./read-room-log";

/**
 * The marks that stand in a piece's room by its stored log. In a transaction that holds the piece they stay what they are
 * until it ends: every update of the room touches the piece's row.
 *
 * @param tx one that sees one picture: a repeatable read, or one that holds the piece.
 * @throws Error if the log is not whole: a room is never taken for empty.
 */
export async function readMarksOfRoom(tx: Prisma.TransactionClient, pieceId: string): Promise<StandingMarks> {
  const log = await readRoomLogIn(tx, pieceId);
  if (log === null) throw new Error(`no room of piece ${pieceId}`);
  const doc = (await openFromSnapshot(log)) ?? (await openFromLog(tx, pieceId, log));
  const marks = readStandingMarks(doc);
  doc.destroy();
  return marks;
}

/** Null where there is no snapshot that fits the log. */
async function openFromSnapshot({ sequence, snapshot, updates }: RoomLog) {
  if (!snapshot?.last) return null;
  if (snapshot.sequence + updates.length !== sequence || updates[0]?.sequence === snapshot.sequence)
    throw new Error("the log of the room is not whole");
  const opened = await openSnapshot(
    snapshot.state,
    snapshot.last.update,
    updates.map(({ update }) => update),
  );
  return opened.ok ? opened.value : null;
}

async function openFromLog(tx: Prisma.TransactionClient, pieceId: string, { epoch, sequence }: RoomLog) {
  const merged = await mergeRoomLog(tx, pieceId, epoch);
  if (merged.sequence !== sequence || hasGap(merged.doc)) throw new Error("the log of the room is not whole");
  return merged.doc;
}
