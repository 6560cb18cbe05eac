"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { restorePiece } from "@/lib/store/deletion/restore-piece";

/** Brings a deleted piece back: `{ pieceId }`. */
export async function restorePieceAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, restorePiece);
}
