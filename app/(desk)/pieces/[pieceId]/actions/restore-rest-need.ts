"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import type { RestNeedRecord } from "@/lib/store/rests/rest-need-record";
import { restoreRestNeed } from "@/lib/store/rests/restore-rest-need";

/** Brings a needed rest back: `{ pieceId, needId }`. */
export async function restoreRestNeedAction(input: unknown): Promise<ActionResult<RestNeedRecord>> {
  return onPiece(input, restoreRestNeed);
}
