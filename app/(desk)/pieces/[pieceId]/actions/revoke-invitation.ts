"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { revokeInvitation } from "@/lib/store/invitations/revoke-invitation";

/** Makes an invitation useless: `{ pieceId, invitationId }`. */
export async function revokeInvitationAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, revokeInvitation);
}
