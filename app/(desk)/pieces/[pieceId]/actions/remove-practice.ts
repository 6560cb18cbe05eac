"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import type { PracticeRecord } from "@/lib/practice/practice-entry";
import { removePractice } from "@/lib/store/practice/remove-practice";

/** Takes an entry off one’s log: `{ pieceId, entryId }`. */
export async function removePracticeAction(input: unknown): Promise<ActionResult<PracticeRecord>> {
  return onPiece(input, removePractice);
}
