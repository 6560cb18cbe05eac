"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { setLongTuttiBars } from "@/lib/store/pieces/set-long-tutti-bars";

/** Sets from how many bars a tutti is long: `{ pieceId, longTuttiBars }`. */
export async function setLongTuttiBarsAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, setLongTuttiBars);
}
