"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { holdRestNeed } from "@/lib/store/rests/hold-rest-need";
import type { RestNeedRecord } from "@/lib/store/rests/rest-need-record";

/** Keeps a needed rest again that was let go: `{ pieceId, needId }`. */
export async function holdRestNeedAction(input: unknown): Promise<ActionResult<RestNeedRecord>> {
  return onPiece(input, holdRestNeed);
}
