"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { type ProposedCuts, proposeCuts } from "@/lib/store/proposals/propose-cuts";

/** Proposes a whole set of cuts: `{ pieceId, sourceHash, cuts: [{ from, to }], reason, plan }`. */
export async function proposeCutsAction(input: unknown): Promise<ActionResult<ProposedCuts>> {
  return onPiece(input, proposeCuts);
}
