"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import type { PracticeRecord } from "@/lib/practice/practice-entry";
import { logPractice } from "@/lib/store/practice/log-practice";

/** Keeps what one has practised: `{ pieceId, entryId, at, fromBar, toBar, sourceHash, tempo, note }`. */
export async function logPracticeAction(input: unknown): Promise<ActionResult<PracticeRecord>> {
  return onPiece(input, logPractice);
}
