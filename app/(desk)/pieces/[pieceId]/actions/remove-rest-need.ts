"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { removeRestNeed } from "@/lib/store/rests/remove-rest-need";
import type { RestNeedRecord } from "@/lib/store/rests/rest-need-record";

/** Takes a needed rest off the list: `{ pieceId, needId }`. */
export async function removeRestNeedAction(input: unknown): Promise<ActionResult<RestNeedRecord>> {
  return onPiece(input, removeRestNeed);
}
