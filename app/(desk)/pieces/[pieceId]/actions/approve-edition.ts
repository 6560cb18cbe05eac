"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { type ApprovedEdition, approveEdition } from "@/lib/store/editions/approve-edition";

/** Agrees to freeze what has this hash: `{ pieceId, hash }`. */
export async function approveEditionAction(input: unknown): Promise<ActionResult<ApprovedEdition>> {
  return onPiece(input, approveEdition);
}
