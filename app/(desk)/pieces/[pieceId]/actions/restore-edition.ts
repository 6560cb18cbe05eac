"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { type RestoredEdition, restoreEdition } from "@/lib/store/editions/restore-edition";

/** Brings an old edition back as a proposal: `{ pieceId, editionNumber, workingHash }`. */
export async function restoreEditionAction(input: unknown): Promise<ActionResult<RestoredEdition>> {
  return onPiece(input, restoreEdition);
}
