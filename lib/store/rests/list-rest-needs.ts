import { type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { type RestNeedRecord, restNeedParts, toRestNeedRecord } from "./rest-need-record";

/**
 * Every rest that a soloist noted in a piece, those taken off included, in the order in which they were noted. For
 * those who read the discussion; a reader sees nothing of it.
 */
export async function listRestNeeds(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<RestNeedRecord[], StoreProblem>> {
  const membership = await readMembership(viewer, pieceId, "read-discussion");
  if (!membership.ok) return membership;
  const rows = await database().restNeed.findMany({
    where: { pieceId },
    orderBy: [{ createdAt: "asc" }, { id: "asc" }],
    include: restNeedParts,
  });
  return success(rows.map(toRestNeedRecord));
}
