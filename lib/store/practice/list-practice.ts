import type { PracticeRecord } from "@/lib/practice/practice-entry";
import { type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { toPracticeRecord } from "./practice-row";

/**
 * What the viewer has practised in a piece, the latest last, with what was taken off; nobody else's. Empty for whoever is
 * not its pianist.
 */
export async function listPractice(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<PracticeRecord[], StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const rows = await database().practiceEntry.findMany({
    where: { pieceId, userId: viewer.userId },
    orderBy: [{ at: "asc" }, { id: "asc" }],
  });
  return success(rows.map(toPracticeRecord));
}
