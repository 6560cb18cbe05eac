import type { Prisma } from "@/generated/prisma/client";
import { failure, type Result, success } from "@/lib/score/result";
import { newAccountSchema } from "../auth/account-schema";
import { insertAccount } from "../auth/create-account";
import { takeTry } from "../auth/rate-limit";
import type { SignedIn } from "../auth/sign-in";
import { now } from "../clock";
import { noteChange } from "../in-piece";
import { inTransaction } from "../in-transaction";
import { parseInput } from "../parse-input";
import { readPlayers } from "../pieces/read-piece";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { isPlayer } from "../who-may";
import { findInvitation } from "./read-invitation";

export interface AcceptedInvitation {
  readonly pieceId: string;
}

/** Joins a piece with the account one is signed in to. The link is used up by it. */
export async function acceptInvitation(
  viewer: Viewer,
  token: string,
): Promise<Result<AcceptedInvitation, StoreProblem>> {
  return inTransaction(async (tx) => {
    const user = await tx.user.findUnique({ where: { id: viewer.userId }, select: { id: true, name: true } });
    return user ? join(tx, { userId: user.id, name: user.name }, token) : failure({ kind: "not-found" });
  });
}

/**
 * Opens an account and joins the piece with it; neither happens without the other.
 *
 * @param address network address of the client, for the limit.
 */
export async function joinWithAccount(
  input: unknown,
  token: string,
  address: string,
): Promise<Result<AcceptedInvitation & SignedIn, StoreProblem>> {
  const limit = await takeTry("newAccountFromAddress", address);
  if (!limit.ok) return limit;
  const account = parseInput(newAccountSchema, input);
  if (!account.ok) return account;
  return inTransaction(async (tx) => {
    const opened = await insertAccount(account.value, tx);
    if (!opened.ok) return opened;
    const joined = await join(tx, opened.value, token);
    return joined.ok ? success({ ...joined.value, ...opened.value }) : joined;
  });
}

async function join(
  tx: Prisma.TransactionClient,
  person: SignedIn,
  token: string,
): Promise<Result<AcceptedInvitation, StoreProblem>> {
  const asked = await findInvitation(token, tx);
  if (!asked) return failure({ kind: "not-found" });
  const { pieceId, role } = asked;
  const { userId, name } = person;
  await tx.$queryRaw`SELECT 1 AS held FROM "Piece" WHERE "id" = ${pieceId} FOR NO KEY UPDATE`;
  // Asked again while the piece is held: two people may have followed the link at once.
  const invitation = await findInvitation(token, tx);
  if (!invitation) return failure({ kind: "not-found" });
  const where = { pieceId_userId: { pieceId, userId } };
  const before = await tx.member.findUnique({ where });
  if (before?.removedAt === null)
    return failure({ kind: "conflict", sentence: "You belong to this piece already." });
  const players = await readPlayers(pieceId, tx);
  if (isPlayer(role) && players.some((player) => player.role === role))
    return failure({ kind: "conflict", sentence: `This piece has a ${role} meanwhile.` });
  const joinedAt = now();
  await tx.member.upsert({
    where,
    create: { pieceId, userId, role, joinedAt },
    update: { role, joinedAt, removedAt: null },
  });
  await tx.invitation.update({
    where: { id: invitation.id },
    data: { acceptedAt: joinedAt, acceptedById: userId },
  });
  await noteChange(
    { tx, membership: { pieceId, userId, name, role } },
    { what: "invitation accepted", about: { invitationId: invitation.id, role }, change: "members" },
  );
  return success({ pieceId });
}
