import { type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

/** Ids of the comments that were on the viewer's screen, in the order of the ids. */
export async function listSeenComments(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<string[], StoreProblem>> {
  const membership = await readMembership(viewer, pieceId, "read-discussion");
  if (!membership.ok) return membership;
  const rows = await database().commentSeen.findMany({
    where: { pieceId, userId: viewer.userId },
    orderBy: { commentId: "asc" },
    select: { commentId: true },
  });
  return success(rows.map(({ commentId }) => commentId));
}
