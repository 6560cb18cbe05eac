import { failure, type Result, success } from "@/lib/score/result";
import { type Database, database } from "./database";
import type { StoreProblem } from "./store-problem";
import type { Viewer } from "./viewer";
import { type MemberRole, may, type PieceAction } from "./who-may";

export interface Membership {
  readonly pieceId: string;
  readonly userId: string;
  readonly name: string;
  readonly role: MemberRole;
}

/**
 * The viewer's place in a piece, when it allows `action`.
 *
 * @returns "not-found" alike for a piece that does not exist, one that was deleted, and one the viewer does not belong to;
 * "not-allowed" for a member whose role does not do this.
 */
export async function readMembership(
  viewer: Viewer,
  pieceId: string,
  action: PieceAction = "read",
  db: Database = database(),
): Promise<Result<Membership, StoreProblem>> {
  const member = await db.member.findFirst({
    where: { pieceId, userId: viewer.userId, removedAt: null, piece: { deletedAt: null } },
    select: { role: true, user: { select: { name: true } } },
  });
  if (!member) return failure({ kind: "not-found" });
  if (!may(member.role, action)) return failure(refusal(member.role, action));
  return success({ pieceId, userId: viewer.userId, name: member.user.name, role: member.role });
}

function refusal(role: MemberRole, action: PieceAction): StoreProblem {
  return { kind: "not-allowed", sentence: sayRefusal(role, action) };
}

function sayRefusal(role: MemberRole, action: PieceAction): string {
  if (role === "reader") return "A reader reads. Only the two players change something here.";
  if (action === "set-rests") return "Only the soloist says what rest and breath the soloist needs.";
  if (role === "soloist" && (action === "rewrite" || action === "practise"))
    return "Only the pianist says what the pianist plays and practises.";
  return "A coach reads and comments. Only the two players decide here.";
}
