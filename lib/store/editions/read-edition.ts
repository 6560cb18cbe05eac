import { failure, type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { type EditionRecord, editionParts, toEditionRecord } from "./edition-record";

/** One edition by its number. */
export async function readEdition(
  viewer: Viewer,
  pieceId: string,
  number: number,
): Promise<Result<EditionRecord, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const row = await database().edition.findUnique({
    where: { pieceId_number: { pieceId, number } },
    include: editionParts,
  });
  return row ? success(toEditionRecord(row)) : failure({ kind: "not-found" });
}
