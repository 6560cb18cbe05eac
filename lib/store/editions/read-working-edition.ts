import { type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { findWorkingPiece, type WorkingEdition } from "./working-edition";

/** What would be frozen now, with its hash: the number both players have to agree to. */
export async function readWorkingEdition(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<WorkingEdition, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  // One consistent picture: an answer that arrives meanwhile changes all of it or nothing.
  const piece = await database().$transaction((tx) => findWorkingPiece(pieceId, tx), {
    isolationLevel: "RepeatableRead",
  });
  const { number, content, hash, openProposals, approvals, canFreeze, whyNot } = piece;
  return success({ number, content, hash, openProposals, approvals, canFreeze, whyNot });
}
