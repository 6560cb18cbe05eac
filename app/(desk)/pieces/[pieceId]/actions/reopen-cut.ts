"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { reopenCut } from "@/lib/store/proposals/reopen-cut";

/** Reopens an agreed cut: `{ pieceId, proposalId, reason }`. */
export async function reopenCutAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, reopenCut);
}
