import type { CommentsTouched } from "@/lib/room/comments-in-changes";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

export interface RoomAppend {
  readonly pieceId: string;
  /** The epoch of the document that the update belongs to. */
  readonly epoch: number;
  /** A Yjs update (v1), already checked. */
  readonly update: Uint8Array;
  /** What it does to comments, if anything. */
  readonly comments?: CommentsTouched;
  /** Names the process that appends, so that it can skip its own `room_appended`. */
  readonly node: string;
}

const noComments: CommentsTouched = { written: [], deleted: [] };

/**
 * Adds one update to a room's log and tells the other processes (`room_appended`), in one statement.
 * The piece's row orders writers, so sequences count from 1 without gaps.
 *
 * @returns the update's place in the log; "not-found" for a stranger, "not-allowed" for a role that does not
 * write in the room, "stale-terms" when the room has started anew since `epoch`.
 */
export async function appendRoomUpdate(
  viewer: Viewer,
  { pieceId, epoch, update, node, comments = noComments }: RoomAppend,
): Promise<Result<{ sequence: number }, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId, "comment");
  if (!membership.ok) return membership;
  // Membership is asked again inside the statement: it may have ended since.
  const rows = await database().$queryRaw<{ sequence: number }[]>`
    WITH place AS (
      UPDATE "Piece" SET "roomSequence" = "roomSequence" + 1
      WHERE "id" = ${pieceId} AND "roomEpoch" = ${epoch} AND "deletedAt" IS NULL AND EXISTS (
        SELECT 1 FROM "Member"
        WHERE "pieceId" = ${pieceId} AND "userId" = ${viewer.userId} AND "removedAt" IS NULL AND "role" <> 'reader'
      )
      RETURNING "roomSequence" AS sequence
    ), added AS (
      INSERT INTO "RoomUpdate"
        ("pieceId", "sequence", "epoch", "update", "userId", "createdAt", "commentsWritten", "commentsDeleted")
      SELECT ${pieceId}, sequence, ${epoch}, ${Buffer.from(update)}, ${viewer.userId}, ${now()},
        ${[...comments.written]}::text[], ${[...comments.deleted]}::text[] FROM place
      RETURNING "sequence" AS sequence
    )
    SELECT sequence, pg_notify('room_appended', json_build_object(
      'pieceId', ${pieceId}::text, 'sequence', sequence, 'node', ${node}::text)::text)::text AS told
    FROM added`;
  const added = rows[0];
  if (added) return success({ sequence: added.sequence });
  const still = await readMembership(viewer, pieceId, "comment");
  if (!still.ok) return still;
  return failure({ kind: "stale-terms", sentence: "This room was started anew. Open the piece again." });
}
