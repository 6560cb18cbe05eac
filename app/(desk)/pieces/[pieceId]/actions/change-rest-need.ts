"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { changeRestNeed } from "@/lib/store/rests/change-rest-need";
import type { RestNeedRecord } from "@/lib/store/rests/rest-need-record";

/** Changes a needed rest: `{ pieceId, needId, sourceHash, from, to, needs, why }`. */
export async function changeRestNeedAction(input: unknown): Promise<ActionResult<RestNeedRecord>> {
  return onPiece(input, changeRestNeed);
}
