import { z } from "zod";
import type { Prisma } from "@/generated/prisma/client";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { endApprovals } from "../editions/end-approvals";
import { inPiece, noteChange, type PieceChangeWork } from "../in-piece";
import { notify } from "../notify";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { isPlayer, type MemberRole, may } from "../who-may";

const removeMemberSchema = z.object({ userId: z.string().max(100) });

/**
 * Ends somebody's membership, one's own or another's, and tells the room servers (`member_removed`). What that
 * person wrote stays. The other player can be removed only while they have decided nothing here: the wrong
 * person can be sent away, a partner cannot be shut out of what both have made. A piece keeps one player.
 */
export async function removeMember(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(removeMemberSchema, input);
  if (!asked.ok) return asked;
  const { userId } = asked.value;
  return inPiece(viewer, pieceId, "read", async (work) => {
    const { tx } = work;
    const leaving = await tx.member.findFirst({ where: { pieceId, userId, removedAt: null } });
    if (!leaving) return failure({ kind: "not-found" });
    const allowed = await mayGo(work, leaving);
    if (!allowed.ok) return allowed;
    await tx.member.update({ where: { id: leaving.id }, data: { removedAt: now() } });
    if (isPlayer(leaving.role)) await endApprovals(tx, pieceId);
    await noteChange(work, {
      what: "member removed",
      about: { userId, role: leaving.role },
      change: "members",
    });
    await notify(tx, "member_removed", { pieceId, userId });
    return success(null);
  });
}

async function mayGo(
  { tx, membership }: PieceChangeWork,
  leaving: { pieceId: string; userId: string; role: MemberRole },
): Promise<Result<null, StoreProblem>> {
  if (leaving.userId === membership.userId) return mayLeave(tx, leaving);
  if (!may(membership.role, "remove-member"))
    return failure({ kind: "not-allowed", sentence: "Only a player removes somebody else from a piece." });
  if (!isPlayer(leaving.role) || !(await hasDecided(tx, leaving))) return success(null);
  return failure({
    kind: "not-allowed",
    sentence: "The other player has decided things here. They can leave; you cannot remove them.",
  });
}

async function mayLeave(
  tx: Prisma.TransactionClient,
  { pieceId, userId, role }: { pieceId: string; userId: string; role: MemberRole },
): Promise<Result<null, StoreProblem>> {
  if (!isPlayer(role)) return success(null);
  const others = await tx.member.count({
    where: { pieceId, removedAt: null, role: { in: ["pianist", "soloist"] }, NOT: { userId } },
  });
  return others > 0
    ? success(null)
    : failure({
        kind: "conflict",
        sentence: "You are the only player here. Invite the other before you leave.",
      });
}

async function hasDecided(
  tx: Prisma.TransactionClient,
  { pieceId, userId }: { pieceId: string; userId: string },
): Promise<boolean> {
  const counts = [
    await tx.proposal.count({ where: { pieceId, proposedById: userId } }),
    await tx.rewrite.count({ where: { pieceId, authorId: userId, sharing: { not: "only_me" } } }),
    await tx.answer.count({ where: { userId, proposal: { pieceId } } }),
    await tx.approval.count({ where: { pieceId, userId } }),
    await tx.source.count({ where: { pieceId, uploadedById: userId } }),
  ];
  return counts.some((count) => count > 0);
}
