"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { type WeighedCut, weighNewCut } from "@/app/_data/weigh-new-cut";

/** What a cut would do, before it is proposed: `{ pieceId, from, to, number }`. Changes nothing. */
export async function weighCutAction(input: unknown): Promise<ActionResult<WeighedCut>> {
  return onPiece(input, weighNewCut);
}
