"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { setLimit } from "@/lib/store/pieces/set-limit";

/** Sets or lifts the time limit: `{ pieceId, limitSeconds }`. */
export async function setLimitAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, setLimit);
}
