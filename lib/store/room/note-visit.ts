import { now } from "../clock";
import { database } from "../database";

/** How far somebody had seen a piece when they left it. */
export interface LeftRoom {
  readonly pieceId: string;
  readonly userId: string;
  /** The last entry of the room's log that was on their screen. */
  readonly sequence: number;
}

/**
 * Notes that a person leaves a piece. For the room server, which knows who was there: there is no viewer. Where they
 * had seen farther already, that stands; nobody has seen farther than the log goes; who does not belong to the piece
 * any more leaves no note.
 *
 * @throws RangeError if `sequence` is no place in a log.
 */
export async function noteVisit({ pieceId, userId, sequence }: LeftRoom): Promise<void> {
  if (!Number.isInteger(sequence) || sequence < 0) throw new RangeError(`No place in a log: ${sequence}`);
  await database().$executeRaw`
    INSERT INTO "RoomVisit" ("pieceId", "userId", "sequence", "at")
    SELECT "Piece"."id", "Member"."userId", LEAST(${sequence}::int, "Piece"."roomSequence"), ${now()}
    FROM "Piece" JOIN "Member" ON "Member"."pieceId" = "Piece"."id"
    WHERE "Piece"."id" = ${pieceId} AND "Member"."userId" = ${userId} AND "Member"."removedAt" IS NULL
    ON CONFLICT ("pieceId", "userId") DO UPDATE
      SET "sequence" = GREATEST("RoomVisit"."sequence", EXCLUDED."sequence"),
          "at" = GREATEST("RoomVisit"."at", EXCLUDED."at")`;
}
