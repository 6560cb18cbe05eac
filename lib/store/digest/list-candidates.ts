import { database } from "../database";
import type { MemberRole } from "../who-may";
import { digestTimes } from "./digest-times";

/** A member of a piece in which something happened that they may not have seen. */
export interface Candidate {
  readonly pieceId: string;
  readonly title: string;
  readonly userId: string;
  readonly name: string;
  readonly email: string;
  readonly role: MemberRole;
  readonly joinedAt: Date;
  /** Where the room's log ends. */
  readonly roomSequence: number;
  readonly visitSequence: number | null;
  readonly visitAt: Date | null;
  readonly toldSequence: number | null;
  readonly toldAt: Date | null;
  /** The last entry of the piece's trail. */
  readonly lastDoneAt: Date | null;
  /** When the person last had a comment on their screen. */
  readonly lastSeenAt: Date | null;
  /** Their last message about any piece. */
  readonly lastMessageAt: Date | null;
}

/**
 * Who may have something to be told. Only marks are compared here, and no room is opened: a piece in which nothing
 * happened lately costs two look-ups in an index, and its members none.
 */
export async function listCandidates(now: Date): Promise<Candidate[]> {
  const oldest = new Date(now.getTime() - digestTimes.oldest);
  return database().$queryRaw<Candidate[]>`
    WITH lively AS (
      SELECT piece."id", piece."title", piece."roomSequence", written."at" AS "writtenAt", done."at" AS "doneAt"
      FROM "Piece" AS piece
      LEFT JOIN LATERAL (
        SELECT "createdAt" AS "at" FROM "RoomUpdate"
        WHERE "pieceId" = piece."id" AND "sequence" = piece."roomSequence"
      ) AS written ON true
      LEFT JOIN LATERAL (
        SELECT "at" FROM "AuditEntry" WHERE "pieceId" = piece."id" ORDER BY "at" DESC LIMIT 1
      ) AS done ON true
      WHERE piece."deletedAt" IS NULL AND (written."at" > ${oldest} OR done."at" > ${oldest})
    )
    SELECT lively."id" AS "pieceId", lively."title", lively."roomSequence", lively."doneAt" AS "lastDoneAt",
      person."id" AS "userId", person."name", person."email", member."role"::text AS "role", member."joinedAt",
      visit."sequence" AS "visitSequence", visit."at" AS "visitAt",
      told."sequence" AS "toldSequence", told."at" AS "toldAt",
      (SELECT max("at") FROM "CommentSeen"
        WHERE "pieceId" = lively."id" AND "userId" = person."id") AS "lastSeenAt",
      (SELECT max(message."at") FROM "Member" AS place JOIN "Digest" AS message USING ("pieceId", "userId")
        WHERE place."userId" = person."id") AS "lastMessageAt"
    FROM lively
    JOIN "Member" AS member ON member."pieceId" = lively."id" AND member."removedAt" IS NULL
    JOIN "User" AS person ON person."id" = member."userId" AND person."wantsDigest"
    LEFT JOIN "RoomVisit" AS visit ON visit."pieceId" = lively."id" AND visit."userId" = person."id"
    LEFT JOIN "Digest" AS told ON told."pieceId" = lively."id" AND told."userId" = person."id"
    WHERE (
      member."role" <> 'reader'
      AND lively."roomSequence" > greatest(visit."sequence", told."sequence", 0)
      AND lively."writtenAt" > member."joinedAt"
    ) OR lively."doneAt" > greatest(member."joinedAt", visit."at", told."at")
    ORDER BY person."id", lively."id"`;
}
