"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import type { ProposalRecord } from "@/lib/store/proposals/proposal-record";
import { proposeCut } from "@/lib/store/proposals/propose-cut";

/** Proposes a cut: `{ pieceId, sourceHash, from, to, reason }`. */
export async function proposeCutAction(input: unknown): Promise<ActionResult<ProposalRecord>> {
  return onPiece(input, proposeCut);
}
