import { failure, type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

/** One update of one room, checked against the log up to and with entry `after`. */
export interface CheckedRoomUpdate {
  readonly viewer: Viewer;
  readonly pieceId: string;
  readonly epoch: number;
  readonly after: number;
  /** A Yjs update (v1). */
  readonly update: Uint8Array;
}

type Appended = Result<{ readonly sequence: number }, StoreProblem>;

/**
 * Adds one update each to the logs of several rooms, in one statement and with one commit. An update enters only
 * if its room's log still ends where it was checked against: two servers of one room never let something in that
 * was not checked against the other's. Nobody is told: a notification inside the commit would let commits pass
 * only one at a time.
 *
 * @param updates of different rooms.
 * @returns in the order of `updates`: the entry's place in its log; "not-found" for a stranger, "not-allowed" for
 * a role that does not write in the room, "stale-terms" when the room has started anew since `epoch`, "conflict"
 * when its log went on since `after`.
 * @throws RangeError if two updates are of one room.
 */
export async function appendRoomUpdates(updates: readonly CheckedRoomUpdate[]): Promise<Appended[]> {
  const pieceIds = updates.map(({ pieceId }) => pieceId);
  if (new Set(pieceIds).size < pieceIds.length) throw new RangeError("two updates of one room");
  const added = new Map((await insert(updates)).map(({ pieceId, sequence }) => [pieceId, sequence]));
  return Promise.all(
    updates.map(async (update) => {
      const sequence = added.get(update.pieceId);
      return sequence === undefined ? failure(await findReason(update)) : success({ sequence });
    }),
  );
}

/** The pieces are locked in one order, so that two servers never wait for each other. */
function insert(updates: readonly CheckedRoomUpdate[]): Promise<{ pieceId: string; sequence: number }[]> {
  const column = <T>(read: (update: CheckedRoomUpdate) => T) => updates.map(read);
  return database().$queryRaw`
    WITH asked AS (
      SELECT * FROM unnest(
        ${column(({ pieceId }) => pieceId)}::text[],
        ${column(({ epoch }) => epoch)}::int[],
        ${column(({ after }) => after)}::int[],
        ${column(({ viewer }) => viewer.userId)}::text[],
        ${column(({ update }) => Buffer.from(update).toString("base64"))}::text[]
      ) AS one("pieceId", "epoch", "after", "userId", "update")
    ), held AS (
      SELECT "id" FROM "Piece" WHERE "id" IN (SELECT "pieceId" FROM asked) ORDER BY "id" FOR NO KEY UPDATE
    ), place AS (
      UPDATE "Piece" AS piece SET "roomSequence" = asked."after" + 1
      FROM asked JOIN held ON held."id" = asked."pieceId"
      WHERE piece."id" = asked."pieceId" AND piece."roomEpoch" = asked."epoch"
        AND piece."roomSequence" = asked."after"
        AND EXISTS (
          SELECT 1 FROM "Member" AS member
          WHERE member."pieceId" = asked."pieceId" AND member."userId" = asked."userId"
            AND member."removedAt" IS NULL AND member."role" <> 'reader'
        )
      RETURNING piece."id" AS "pieceId", piece."roomSequence" AS "sequence"
    )
    INSERT INTO "RoomUpdate" ("pieceId", "sequence", "epoch", "update", "userId")
    SELECT asked."pieceId", place."sequence", asked."epoch", decode(asked."update", 'base64'), asked."userId"
    FROM place JOIN asked USING ("pieceId")
    RETURNING "pieceId", "sequence"`;
}

/** Why nothing was added, asked only then: the statement itself checks everything at once. */
async function findReason({ viewer, pieceId, epoch }: CheckedRoomUpdate): Promise<StoreProblem> {
  const membership = await readMembership(viewer, pieceId, "comment");
  if (!membership.ok) return membership.problem;
  const piece = await database().piece.findUnique({ where: { id: pieceId }, select: { roomEpoch: true } });
  if (piece?.roomEpoch !== epoch)
    return { kind: "stale-terms", sentence: "This room was started anew. Open the piece again." };
  return { kind: "conflict", sentence: "Something else was written here meanwhile." };
}
