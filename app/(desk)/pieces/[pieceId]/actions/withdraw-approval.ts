"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { withdrawApproval } from "@/lib/store/editions/withdraw-approval";

/** Takes the yes to freezing back: `{ pieceId }`. */
export async function withdrawApprovalAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, withdrawApproval);
}
