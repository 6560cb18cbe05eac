import { type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import type { MemberRole } from "../who-may";

export interface PendingInvitation {
  readonly id: string;
  readonly role: MemberRole;
  readonly invitedBy: string;
  readonly createdAt: Date;
  readonly expiresAt: Date;
}

/** Invitations to a piece that can still be accepted, without their links: those are shown only once. */
export async function listInvitations(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<PendingInvitation[], StoreProblem>> {
  const membership = await readMembership(viewer, pieceId, "invite");
  if (!membership.ok) return membership;
  const rows = await database().invitation.findMany({
    where: { pieceId, acceptedAt: null, revokedAt: null, expiresAt: { gt: now() } },
    orderBy: { createdAt: "asc" },
    include: { invitedBy: { select: { name: true } } },
  });
  return success(
    rows.map(({ id, role, createdAt, expiresAt, invitedBy }) => ({
      ...{ id, role, createdAt, expiresAt },
      invitedBy: invitedBy.name,
    })),
  );
}
