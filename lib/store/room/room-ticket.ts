import { randomBytes } from "node:crypto";
import { failure, type Result, success } from "@/lib/score/result";
import { hashToken } from "../auth/session";
import { now } from "../clock";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

/** How long a ticket may lie before it is used. A page asks for one right before it connects. */
const ticketSeconds = 60;

/** How many unused tickets one session may hold: far above what open pages need. */
const mostTickets = 64;

/**
 * A ticket that lets one socket into the room of a piece, once and soon, where the session's cookie does not
 * reach. It ends with the session, and so does the socket.
 *
 * @param sessionToken the token in the viewer's session cookie.
 * @returns 256 random bits (base64url), of which only the hash is stored; "not-found" for a stranger or a session
 * that is over, "rate-limited" when too many lie unused.
 */
export async function issueRoomTicket(
  viewer: Viewer,
  sessionToken: string,
  pieceId: string,
): Promise<Result<{ ticket: string }, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const sessionHash = hashToken(sessionToken);
  const ticket = randomBytes(32).toString("base64url");
  await forgetExpiredTickets();
  const expires = new Date(now().getTime() + ticketSeconds * 1000);
  const issued = await database().$executeRaw`
    INSERT INTO "RoomTicket" ("tokenHash", "sessionHash", "pieceId", "expires")
    SELECT ${hashToken(ticket)}, "tokenHash", ${pieceId}, ${expires} FROM "Session"
    WHERE "tokenHash" = ${sessionHash} AND "userId" = ${viewer.userId} AND "expires" > ${now()}
      AND (SELECT count(*) FROM "RoomTicket" WHERE "sessionHash" = ${sessionHash}) < ${mostTickets}`;
  if (issued > 0) return success({ ticket });
  const held = await database().roomTicket.count({ where: { sessionHash } });
  return failure(
    held >= mostTickets ? { kind: "rate-limited", retryAfterSeconds: ticketSeconds } : { kind: "not-found" },
  );
}

/**
 * Takes a ticket for the room of a piece: it is then gone, whoever comes first with it.
 *
 * @returns the hash of the session it was issued to; null when there is no such ticket for this piece, or it
 * lay too long.
 */
export async function takeRoomTicket(ticket: string, pieceId: string): Promise<string | null> {
  const [used] = await database().$queryRaw<{ sessionHash: string; expires: Date }[]>`
    DELETE FROM "RoomTicket" WHERE "tokenHash" = ${hashToken(ticket)} AND "pieceId" = ${pieceId}
    RETURNING "sessionHash", "expires"`;
  return used && used.expires > now() ? used.sessionHash : null;
}

async function forgetExpiredTickets(): Promise<void> {
  await database().roomTicket.deleteMany({ where: { expires: { lte: now() } } });
}
