import type { CommentsTouched } from "@/lib/room/comments-in-changes";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { database } from "../database";
import { journalConnections } from "../journal-connections";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

/** One update of one room, checked against the log up to and with entry `after`. */
export interface CheckedRoomUpdate {
  readonly viewer: Viewer;
  /** `hashToken` of the session that it came over, if it came over one: once that is over, nothing is added. */
  readonly sessionHash?: string;
  readonly pieceId: string;
  readonly epoch: number;
  readonly after: number;
  /** A Yjs update (v1). */
  readonly update: Uint8Array;
  /** What it does to comments, if anything. */
  readonly comments?: CommentsTouched;
}

type AppendProblem = StoreProblem | { readonly kind: "signed-out" };
type Appended = Result<{ readonly sequence: number }, AppendProblem>;

/**
 * Adds one update each to the logs of several rooms, in one statement and with one commit. An update enters only
 * if its room's log still ends where it was checked against: two servers of one room never let something in that
 * was not checked against the other's. Nobody is told: a notification inside the commit would let commits pass
 * only one at a time.
 *
 * @param updates of different rooms.
 * @returns in the order of `updates`: the entry's place in its log; "not-found" for a stranger, "not-allowed" for
 * a role that does not write in the room, "stale-terms" when the room has started anew since `epoch`, "conflict"
 * when its log went on since `after`, "signed-out" when the session is over.
 * @throws RangeError if two updates are of one room.
 */
export async function appendRoomUpdates(updates: readonly CheckedRoomUpdate[]): Promise<Appended[]> {
  const pieceIds = updates.map(({ pieceId }) => pieceId);
  if (new Set(pieceIds).size < pieceIds.length) throw new RangeError("two updates of one room");
  const added = await insert(updates);
  if (added.size === updates.length) return updates.map(({ after }) => success({ sequence: after + 1 }));
  const left = updates.filter(({ pieceId }) => !added.has(pieceId));
  const overtaken = await findOvertaken(left);
  return Promise.all(
    updates.map(async (update) => {
      if (added.has(update.pieceId)) return success({ sequence: update.after + 1 });
      return failure(overtaken.has(update.pieceId) ? conflict : await findReason(update));
    }),
  );
}

/**
 * The pieces are locked in one order, so that two servers never wait for each other. All updates travel as one run
 * of bytes, each of which is cut out again by where it starts: nothing is written out as text on the way.
 */
const insertion = `
  WITH asked AS (
    SELECT * FROM unnest($1::text[], $2::int[], $3::int[], $4::text[], $5::int[], $6::int[], $8::text[], $9::text[], $10::text[])
      AS one("pieceId", "epoch", "after", "userId", "start", "length", "sessionHash", "written", "deleted")
  ), held AS (
    SELECT "id" FROM "Piece" WHERE "id" = ANY($1) ORDER BY "id" FOR NO KEY UPDATE
  ), place AS (
    UPDATE "Piece" AS piece SET "roomSequence" = asked."after" + 1
    FROM held
    JOIN asked ON asked."pieceId" = held."id"
    JOIN "Member" AS member ON member."pieceId" = asked."pieceId" AND member."userId" = asked."userId"
    LEFT JOIN "Session" AS session ON session."tokenHash" = asked."sessionHash"
    WHERE piece."id" = held."id" AND piece."roomEpoch" = asked."epoch"
      AND piece."roomSequence" = asked."after"
      AND piece."deletedAt" IS NULL
      AND member."removedAt" IS NULL AND member."role" <> 'reader'
      AND (asked."sessionHash" IS NULL
        OR (session."userId" = asked."userId" AND session."expires" > now()))
    RETURNING piece."id" AS "pieceId", piece."roomSequence" AS "sequence"
  )
  INSERT INTO "RoomUpdate" ("pieceId", "sequence", "epoch", "update", "userId", "commentsWritten", "commentsDeleted")
  SELECT asked."pieceId", place."sequence", asked."epoch",
    substring($7::bytea FROM asked."start" FOR asked."length"), asked."userId",
    string_to_array(asked."written", ','), string_to_array(asked."deleted", ',')
  FROM place JOIN asked USING ("pieceId")
  RETURNING "pieceId"`;

/** @returns the pieces whose logs took their update: each then ends one further than it did. */
async function insert(updates: readonly CheckedRoomUpdate[]): Promise<Set<string>> {
  const lengths = updates.map(({ update }) => update.byteLength);
  // SQL counts bytes from 1.
  let end = 1;
  const starts = lengths.map((length) => {
    end += length;
    return end - length;
  });
  const bytes = Buffer.concat(updates.map(({ update }) => update));
  const sessions = updates.map(({ sessionHash }) => sessionHash ?? null);
  const written = updates.map(({ comments }) => joinIds(comments?.written));
  const deleted = updates.map(({ comments }) => joinIds(comments?.deleted));
  const values = [...columnsOf(updates), starts, lengths, bytes, sessions, written, deleted];
  return askPieces("append-room-updates", insertion, values);
}

/** As one text, because a column of lists is none that Postgres takes apart. No id has a comma. Null for none. */
function joinIds(ids: readonly string[] = []): string | null {
  return ids.length === 0 ? null : ids.join(",");
}

/** Who may write, in a room of this epoch, but found its log further on than they knew. */
const overtaking = `
  SELECT "pieceId"
  FROM unnest($1::text[], $2::int[], $3::int[], $4::text[]) AS one("pieceId", "epoch", "after", "userId")
  JOIN "Piece" AS piece ON piece."id" = one."pieceId" AND piece."roomEpoch" = one."epoch"
    AND piece."roomSequence" <> one."after"
  JOIN "Member" AS member USING ("pieceId", "userId")
  WHERE piece."deletedAt" IS NULL AND member."removedAt" IS NULL AND member."role" <> 'reader'`;

function findOvertaken(updates: readonly CheckedRoomUpdate[]): Promise<Set<string>> {
  return askPieces("find-overtaken-updates", overtaking, columnsOf(updates));
}

function columnsOf(updates: readonly CheckedRoomUpdate[]): unknown[] {
  return [
    updates.map(({ pieceId }) => pieceId),
    updates.map(({ epoch }) => epoch),
    updates.map(({ after }) => after),
    updates.map(({ viewer }) => viewer.userId),
  ];
}

/** Asks with a statement that each connection prepares once and that answers with ids of pieces. */
async function askPieces(name: string, text: string, values: unknown[]): Promise<Set<string>> {
  const { rows } = await journalConnections().query<[string]>({ name, text, values, rowMode: "array" });
  return new Set(rows.map(([pieceId]) => pieceId));
}

const conflict: StoreProblem = {
  kind: "conflict",
  sentence: "Something else was written here meanwhile.",
};

/** Why nothing was added, asked only then: the statement itself checks everything at once. */
async function findReason(update: CheckedRoomUpdate): Promise<AppendProblem> {
  const { viewer, pieceId, epoch, sessionHash } = update;
  const membership = await readMembership(viewer, pieceId, "comment");
  if (!membership.ok) return membership.problem;
  const piece = await database().piece.findUnique({ where: { id: pieceId }, select: { roomEpoch: true } });
  if (piece?.roomEpoch !== epoch)
    return { kind: "stale-terms", sentence: "This room was started anew. Open the piece again." };
  if (sessionHash !== undefined && !(await isSessionOpen(sessionHash))) return { kind: "signed-out" };
  return conflict;
}

async function isSessionOpen(tokenHash: string): Promise<boolean> {
  const count = await database().session.count({ where: { tokenHash, expires: { gt: now() } } });
  return count > 0;
}
