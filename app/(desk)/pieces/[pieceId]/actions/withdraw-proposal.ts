"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { withdrawProposal } from "@/lib/store/proposals/withdraw-proposal";

/** Takes a proposal of one’s own back: `{ pieceId, proposalId }`. */
export async function withdrawProposalAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, withdrawProposal);
}
