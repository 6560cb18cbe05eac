"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { publicUrl } from "@/app/_data/public-url";
import { invite, type NewInvitation } from "@/lib/store/invitations/invite";

/** Makes an invitation: `{ pieceId, role }`. Its `link` is shown this once. */
export async function inviteToPieceAction(
  input: unknown,
): Promise<ActionResult<NewInvitation & { readonly link: string }>> {
  const invited = await onPiece(input, invite);
  if (!invited.ok) return invited;
  const link = new URL(`/invitation/${invited.value.token}`, publicUrl()).href;
  return { ok: true, value: { ...invited.value, link } };
}
