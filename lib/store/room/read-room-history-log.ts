import type { RoomHistoryEntry } from "@/lib/room/history/room-history-entry";
import { database } from "../database";

/**
 * The whole log of a room as its history is read from: every epoch, each entry with its writer and time.
 *
 * @param upTo the last entry wanted.
 */
export async function readRoomHistoryLog(pieceId: string, upTo?: number): Promise<RoomHistoryEntry[]> {
  const rows = await database().roomUpdate.findMany({
    where: { pieceId, ...(upTo === undefined ? {} : { sequence: { lte: upTo } }) },
    orderBy: { sequence: "asc" },
    select: { sequence: true, epoch: true, update: true, userId: true, createdAt: true },
  });
  return rows.map(({ createdAt, ...entry }) => ({ ...entry, at: createdAt }));
}
