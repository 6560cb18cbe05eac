"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { deletePiece } from "@/lib/store/deletion/delete-piece";

/** Deletes a piece, which either player can bring back for 30 days: `{ pieceId, title }`. */
export async function deletePieceAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, deletePiece);
}
