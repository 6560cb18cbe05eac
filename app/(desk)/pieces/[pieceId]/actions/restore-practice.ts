"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import type { PracticeRecord } from "@/lib/practice/practice-entry";
import { restorePractice } from "@/lib/store/practice/restore-practice";

/** Brings an entry of one’s log back: `{ pieceId, entryId }`. */
export async function restorePracticeAction(input: unknown): Promise<ActionResult<PracticeRecord>> {
  return onPiece(input, restorePractice);
}
