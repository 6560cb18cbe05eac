"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { counterPropose } from "@/lib/store/proposals/counter-propose";
import type { ProposalRecord } from "@/lib/store/proposals/proposal-record";

/** Proposes other bars in the place of a cut: `{ pieceId, proposalId, seenState, sourceHash, from, to, reason }`. */
export async function counterProposeAction(input: unknown): Promise<ActionResult<ProposalRecord>> {
  return onPiece(input, counterPropose);
}
