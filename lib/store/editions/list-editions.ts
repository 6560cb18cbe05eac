import { type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { type EditionRecord, editionParts, toEditionRecord } from "./edition-record";

/** Every edition of a piece, the newest first. */
export async function listEditions(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<EditionRecord[], StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const rows = await database().edition.findMany({
    where: { pieceId },
    orderBy: { number: "desc" },
    include: editionParts,
  });
  return success(rows.map(toEditionRecord));
}
