import { failure, type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

/** When something of a piece outside its room was last changed, for a page that asks whether it still shows what is. */
export async function readChangedAt(viewer: Viewer, pieceId: string): Promise<Result<Date, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const piece = await database().piece.findUnique({ where: { id: pieceId }, select: { changedAt: true } });
  return piece ? success(piece.changedAt) : failure({ kind: "not-found" });
}
