"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { noteRestNeed } from "@/lib/store/rests/note-rest-need";
import type { RestNeedRecord } from "@/lib/store/rests/rest-need-record";

/** Notes a rest that the soloist needs: `{ pieceId, sourceHash, from, to, needs, why }`. */
export async function noteRestNeedAction(input: unknown): Promise<ActionResult<RestNeedRecord>> {
  return onPiece(input, noteRestNeed);
}
