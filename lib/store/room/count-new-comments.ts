import { database } from "../database";
import type { Viewer } from "../viewer";

/**
 * How many comments others wrote in each piece since the viewer last left it: those that still stand and that were not on
 * the viewer's screen. The log tells of each entry which comments it brought, so that no room is opened; of entries from
 * before that was kept nothing is counted.
 *
 * @returns by piece id; without pieces that have none, and those in which the viewer does not read the discussion.
 */
export async function countNewComments({ userId }: Viewer): Promise<Map<string, number>> {
  const rows = await database().$queryRaw<{ pieceId: string; count: number }[]>`
    SELECT entry."pieceId", count(DISTINCT comment."id")::int AS "count"
    FROM "Member" AS member
    JOIN "Piece" AS piece ON piece."id" = member."pieceId" AND piece."deletedAt" IS NULL
    LEFT JOIN "RoomVisit" AS visit ON visit."pieceId" = piece."id" AND visit."userId" = member."userId"
    JOIN "RoomUpdate" AS entry ON entry."pieceId" = piece."id" AND entry."sequence" > coalesce(visit."sequence", 0)
      AND entry."userId" <> member."userId"
    CROSS JOIN LATERAL unnest(entry."commentsWritten") AS comment("id")
    WHERE member."userId" = ${userId} AND member."removedAt" IS NULL AND member."role" <> 'reader'
      AND NOT EXISTS (
        SELECT 1 FROM "RoomUpdate" AS later
        WHERE later."pieceId" = entry."pieceId" AND later."sequence" > entry."sequence"
          AND comment."id" = ANY(later."commentsDeleted")
      )
      AND NOT EXISTS (
        SELECT 1 FROM "CommentSeen" AS seen
        WHERE seen."pieceId" = entry."pieceId" AND seen."userId" = member."userId" AND seen."commentId" = comment."id"
      )
    GROUP BY entry."pieceId"`;
  return new Map(rows.map(({ pieceId, count }) => [pieceId, count]));
}
