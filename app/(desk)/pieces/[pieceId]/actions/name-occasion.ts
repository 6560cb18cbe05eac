"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { nameOccasion } from "@/lib/store/pieces/name-occasion";

/** Says what a piece is prepared for: `{ pieceId, name, stood }`, `stood` being the name that was on the screen. */
export async function nameOccasionAction(input: unknown): Promise<ActionResult<{ name: string }>> {
  return onPiece(input, nameOccasion);
}
