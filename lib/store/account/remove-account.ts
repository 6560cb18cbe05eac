import { z } from "zod";
import { Prisma } from "@/generated/prisma/client";
import { type Result, success } from "@/lib/score/result";
import { archivedAsSchema } from "../archive/archive-keys";
import { noPassword, unusableEmail } from "../archive/people-without-account";
import { now } from "../clock";
import { endApprovals } from "../editions/end-approvals";
import { noteChange } from "../in-piece";
import { inTransaction } from "../in-transaction";
import { notify } from "../notify";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { isPlayer, type MemberRole } from "../who-may";
import { askPassword } from "./ask-password";

const removeSchema = z.object({
  password: z.string().min(1, "Write your password.").max(200, "A password has at most 200 characters."),
  /** What stands in the place of the name, except in frozen editions, which never change. */
  names: z.enum(["keep", "replace"], "Say whether your name stays."),
});

/**
 * Removes the viewer's account. Address and password are erased, every session ends, and so does every membership. What
 * was agreed stays agreed and names who agreed: an agreement says who. If the person wants it, their name is replaced by
 * what they were ("the soloist") everywhere but in frozen editions, which never change. What nobody else ever saw (hands,
 * practice, rewrites for their own eyes) is deleted.
 *
 * A piece to which nobody else belongs is deleted with it, and gone for good after 30 days.
 */
export async function removeAccount(viewer: Viewer, input: unknown): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(removeSchema, input);
  if (!asked.ok) return asked;
  const known = await askPassword(viewer, asked.value.password);
  if (!known.ok) return known;
  const { userId } = viewer;
  return inTransaction(async (tx) => {
    const { name } = await tx.user.findUniqueOrThrow({ where: { id: userId }, select: { name: true } });
    const memberships = await tx.member.findMany({ where: { userId }, orderBy: { id: "asc" } });
    for (const { pieceId, role, removedAt } of memberships)
      if (removedAt === null) await leave(tx, { pieceId, userId, name, role });
    await takeLinksBack(tx, userId);
    if (asked.value.names === "replace") await replaceName(tx, userId, memberships);
    await tx.programmeItem.deleteMany({ where: { programme: { ownerId: userId } } });
    await tx.programme.deleteMany({ where: { ownerId: userId } });
    await tx.user.update({
      where: { id: userId },
      data: {
        ...{ email: unusableEmail(), passwordHash: noPassword, wantsDigest: false, removedAt: now() },
        ...{ hands: Prisma.DbNull, handsChangedAt: null },
      },
    });
    await deletePrivate(tx, userId);
    await tx.session.deleteMany({ where: { userId } });
    await notify(tx, "session_ended", { userId });
    return success(null);
  });
}

interface Leaving {
  readonly pieceId: string;
  readonly userId: string;
  readonly name: string;
  readonly role: MemberRole;
}

async function leave(tx: Prisma.TransactionClient, membership: Leaving): Promise<void> {
  const { pieceId, userId, role } = membership;
  await tx.$queryRaw`SELECT 1 AS held FROM "Piece" WHERE "id" = ${pieceId} FOR NO KEY UPDATE`;
  await tx.member.update({
    where: { pieceId_userId: { pieceId, userId } },
    data: { removedAt: now() },
  });
  if (isPlayer(role)) await endApprovals(tx, pieceId);
  await noteChange(
    { tx, membership },
    { what: "member removed", about: { userId, role }, change: "members" },
  );
  await notify(tx, "member_removed", { pieceId, userId });
  const others = await tx.member.count({ where: { pieceId, removedAt: null } });
  if (others > 0) return;
  await tx.piece.updateMany({ where: { id: pieceId, deletedAt: null }, data: { deletedAt: now() } });
}

/**
 * What nobody but the person ever saw: the log of their practice, and rewrites that they kept to themselves. The database
 * lets go of those once the account is removed.
 */
async function deletePrivate(tx: Prisma.TransactionClient, userId: string): Promise<void> {
  await tx.practiceEntry.deleteMany({ where: { userId } });
  const neverShared = {
    authorId: userId,
    sharing: "only_me",
    proposalId: null,
    editions: { none: {} },
  } as const;
  await tx.rewriteEvent.deleteMany({ where: { rewrite: neverShared } });
  await tx.rewrite.deleteMany({ where: neverShared });
}

/** Links by which others come in are the person's word, which ends with the account. */
async function takeLinksBack(tx: Prisma.TransactionClient, userId: string): Promise<void> {
  const revokedAt = now();
  await tx.invitation.updateMany({
    where: { invitedById: userId, acceptedAt: null, revokedAt: null },
    data: { revokedAt },
  });
  await tx.readerLink.updateMany({ where: { madeById: userId, revokedAt: null }, data: { revokedAt } });
}

/** What a person is called who does not want to be named any more: by the one role they had, else by none. */
export function nameByRole(roles: readonly MemberRole[]): string {
  const [role, ...others] = new Set(roles);
  return role !== undefined && others.length === 0 ? `the ${role}` : "a former member";
}

async function replaceName(
  tx: Prisma.TransactionClient,
  userId: string,
  memberships: readonly {
    readonly id: string;
    readonly role: MemberRole;
    readonly archivedAs: Prisma.JsonValue;
  }[],
): Promise<void> {
  const name = nameByRole(memberships.map(({ role }) => role));
  await tx.user.update({ where: { id: userId }, data: { name } });
  for (const { id, archivedAs } of memberships) {
    if (archivedAs === null) continue;
    const as = { ...archivedAsSchema.parse(archivedAs), name };
    await tx.member.update({ where: { id }, data: { archivedAs: as } });
  }
}
