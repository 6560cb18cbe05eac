import { replayRoomInTurns } from "@/lib/room/history/replay-room";
import { database } from "../database";
import { readRoomHistoryLog } from "../room/read-room-history-log";
import { digestTimes } from "./digest-times";
import type { PiecePast } from "./find-piece-news";

/**
 * What happened in a piece as far as it can be news: the trail's last days, and the whole room.
 *
 * @param upTo the last entry of the room's log that is wanted; null when no changes of the room are.
 */
export async function readPiecePast(
  pieceId: string,
  { now, upTo }: { now: Date; upTo: number | null },
): Promise<PiecePast> {
  const trail = await database().auditEntry.findMany({
    where: { pieceId, at: { gt: oldestNews(now) } },
    orderBy: [{ at: "asc" }, { id: "asc" }],
    select: { at: true, userId: true, what: true, about: true },
  });
  const changes = upTo === null ? [] : await replayRoomInTurns(await readRoomHistoryLog(pieceId, upTo));
  return { trail, changes };
}

/** Who wrote an entry of a room's log, and when. */
export interface RoomTailEntry {
  readonly sequence: number;
  readonly userId: string | null;
  readonly at: Date;
}

/** Who wrote in a room when, after an entry, as far back as news go. */
export async function readRoomTail(pieceId: string, after: number, now: Date): Promise<RoomTailEntry[]> {
  const rows = await database().roomUpdate.findMany({
    where: { pieceId, sequence: { gt: after }, createdAt: { gt: oldestNews(now) } },
    orderBy: { sequence: "asc" },
    select: { sequence: true, userId: true, createdAt: true },
  });
  return rows.map(({ sequence, userId, createdAt }) => ({ sequence, userId, at: createdAt }));
}

function oldestNews(now: Date): Date {
  return new Date(now.getTime() - digestTimes.oldest);
}

/** Everybody who ever belonged to a piece. */
export async function readPeople(
  pieceId: string,
): Promise<{ userId: string; name: string; isHere: boolean }[]> {
  const rows = await database().member.findMany({
    where: { pieceId },
    select: { userId: true, removedAt: true, user: { select: { name: true } } },
  });
  return rows.map(({ userId, removedAt, user }) => ({ userId, name: user.name, isHere: removedAt === null }));
}

/** Which comments a person had on their screen, and when. */
export async function readSeen(pieceId: string, userId: string): Promise<Map<string, Date>> {
  const rows = await database().commentSeen.findMany({
    where: { pieceId, userId },
    select: { commentId: true, at: true },
  });
  return new Map(rows.map(({ commentId, at }) => [commentId, at]));
}
