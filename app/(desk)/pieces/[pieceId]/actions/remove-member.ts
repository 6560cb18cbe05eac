"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { removeMember } from "@/lib/store/pieces/remove-member";

/** Ends a membership, one’s own or another’s: `{ pieceId, userId }`. */
export async function removeMemberAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, removeMember);
}
