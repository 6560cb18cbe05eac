"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { markSeen } from "@/app/_data/desk/mark-seen";
import { onPiece } from "@/app/_data/on-piece";

/** Notes that comments were on this person's screen: `{ pieceId, commentIds }`, 200 at most. */
export async function markCommentsSeenAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, markSeen);
}
