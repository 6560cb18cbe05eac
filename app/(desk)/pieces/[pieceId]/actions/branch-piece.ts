"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { type BranchedPiece, branchPiece } from "@/lib/store/pieces/branch-piece";

/** Prepares the music for another occasion: `{ pieceId, name, thisName, editionNumber, limitSeconds }`. */
export async function branchPieceAction(input: unknown): Promise<ActionResult<BranchedPiece>> {
  return onPiece(input, branchPiece);
}
