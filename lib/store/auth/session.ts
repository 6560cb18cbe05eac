import { createHash, randomBytes } from "node:crypto";
import { now } from "../clock";
import { database } from "../database";
import { notify } from "../notify";
import type { Viewer } from "../viewer";

/** A session lasts 30 days from signing in and is not prolonged. */
export const sessionSeconds = 30 * 24 * 60 * 60;

export interface NewSession {
  /** For the cookie; only its hash is stored. */
  readonly token: string;
  readonly expires: Date;
}

export interface Session {
  readonly userId: string;
  readonly name: string;
  readonly email: string;
  readonly expires: Date;
}

export async function startSession(userId: string): Promise<NewSession> {
  const token = randomBytes(32).toString("base64url");
  const expires = new Date(now().getTime() + sessionSeconds * 1000);
  await database().session.create({
    data: { tokenHash: hashToken(token), userId, expires, createdAt: now() },
  });
  await database().session.deleteMany({ where: { userId, expires: { lt: now() } } });
  return { token, expires };
}

/** Whose session this is; null when it never was, is over or was ended. */
export async function readSession(token: string): Promise<Session | null> {
  const session = await database().session.findUnique({
    where: { tokenHash: hashToken(token) },
    select: { userId: true, expires: true, user: { select: { name: true, email: true } } },
  });
  if (!session || session.expires <= now()) return null;
  return { userId: session.userId, expires: session.expires, ...session.user };
}

/** Ends one session and tells the room servers (`session_ended` with the token's hash). */
export async function endSession(token: string): Promise<void> {
  const tokenHash = hashToken(token);
  await database().$transaction(async (tx) => {
    const [ended] = await tx.$queryRaw<{ userId: string }[]>`
      DELETE FROM "Session" WHERE "tokenHash" = ${tokenHash} RETURNING "userId"`;
    if (ended) await notify(tx, "session_ended", { userId: ended.userId, tokenHash });
  });
}

/** Ends every session of the viewer, on every device, and tells the room servers. */
export async function endAllSessions(viewer: Viewer): Promise<void> {
  await database().$transaction(async (tx) => {
    await tx.session.deleteMany({ where: { userId: viewer.userId } });
    await notify(tx, "session_ended", { userId: viewer.userId });
  });
}

/** SHA-256 (hex): the token is 256 random bits, so a plain hash cannot be turned back. */
export function hashToken(token: string): string {
  return createHash("sha256").update(token).digest("hex");
}
