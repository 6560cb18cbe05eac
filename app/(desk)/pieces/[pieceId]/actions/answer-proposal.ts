"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import type { ProposalRecord, RewriteProposalRecord } from "@/lib/store/proposals/proposal-record";

/** Agrees or declines: `{ pieceId, proposalId, answer, termsHash, reason }`. */
export async function answerProposalAction(
  input: unknown,
): Promise<ActionResult<ProposalRecord | RewriteProposalRecord>> {
  return onPiece(input, answerProposal);
}
