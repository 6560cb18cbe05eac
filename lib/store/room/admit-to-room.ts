import { failure, type Result, success } from "@/lib/score/result";
import { database } from "../database";
import type { MemberRole } from "../who-may";

/** A person in the room of a piece, as their session and their membership say. */
export interface RoomPerson {
  readonly userId: string;
  readonly name: string;
  readonly role: MemberRole;
}

export type RoomAdmissionProblem =
  /** There is no such session, or it is over. */
  | { readonly kind: "signed-out" }
  /** There is no such piece, or the person does not belong to it. */
  | { readonly kind: "not-found" };

/**
 * Whom a session lets into the room of a piece, in one query: asked at the door, and again whenever a session
 * or a membership may have ended.
 *
 * @param tokenHash `hashToken` of the cookie's token.
 */
export async function admitToRoom(
  tokenHash: string,
  pieceId: string,
): Promise<Result<RoomPerson, RoomAdmissionProblem>> {
  const session = await database().session.findUnique({
    where: { tokenHash, expires: { gt: new Date() } },
    select: {
      userId: true,
      user: {
        select: { name: true, memberships: { where: { pieceId, removedAt: null }, select: { role: true } } },
      },
    },
  });
  if (!session) return failure({ kind: "signed-out" });
  const [membership] = session.user.memberships;
  if (!membership) return failure({ kind: "not-found" });
  return success({ userId: session.userId, name: session.user.name, role: membership.role });
}
