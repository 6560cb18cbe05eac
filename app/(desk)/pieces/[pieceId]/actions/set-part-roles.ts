"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { setPartRoles } from "@/lib/store/pieces/set-part-roles";

/** Says what the parts are for: `{ pieceId, partRoles }`. */
export async function setPartRolesAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, setPartRoles);
}
