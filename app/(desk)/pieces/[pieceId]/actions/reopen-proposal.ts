"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { reopenProposal } from "@/lib/store/proposals/reopen-proposal";

/** Reopens an agreed cut: `{ pieceId, proposalId, reason }`. */
export async function reopenProposalAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, reopenProposal);
}
