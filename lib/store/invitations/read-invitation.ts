import type { Prisma } from "@/generated/prisma/client";
import { failure, type Result, success } from "@/lib/score/result";
import { takeTry } from "../auth/rate-limit";
import { hashToken } from "../auth/session";
import { now } from "../clock";
import { type Database, database } from "../database";
import type { StoreProblem } from "../store-problem";
import type { MemberRole } from "../who-may";

/** What somebody with the link may see before joining: who asks, to which piece, as what. */
export interface InvitationRecord {
  readonly pieceId: string;
  readonly pieceTitle: string;
  readonly composer: string | null;
  readonly role: MemberRole;
  readonly invitedBy: string;
  readonly expiresAt: Date;
}

/**
 * The invitation behind a link. Whoever holds the link is meant by it, signed in or not.
 *
 * @param address network address of the client, for the limit.
 * @returns "not-found" alike for a link that never was, one that is used, revoked or too old, and one to a deleted piece.
 */
export async function readInvitation(
  token: string,
  address: string,
): Promise<Result<InvitationRecord, StoreProblem>> {
  const limit = await takeTry("invitationLookUpFromAddress", address);
  if (!limit.ok) return limit;
  const row = await findInvitation(token);
  if (!row) return failure({ kind: "not-found" });
  const { pieceId, piece, role, expiresAt } = row;
  return success({
    ...{ pieceId, role, expiresAt },
    pieceTitle: piece.title,
    composer: piece.composer,
    invitedBy: row.invitedBy.name,
  });
}

const invitationParts = {
  piece: { select: { title: true, composer: true } },
  invitedBy: { select: { name: true } },
} as const satisfies Prisma.InvitationInclude;

/** An invitation that can still be accepted; null otherwise. */
export async function findInvitation(token: string, db: Database = database()) {
  return db.invitation.findFirst({
    where: {
      tokenHash: hashToken(token),
      acceptedAt: null,
      revokedAt: null,
      expiresAt: { gt: now() },
      piece: { deletedAt: null },
    },
    include: invitationParts,
  });
}
