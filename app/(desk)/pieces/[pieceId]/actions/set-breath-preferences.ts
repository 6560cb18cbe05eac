"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { setBreathPreferences } from "@/lib/store/rests/set-breath-preferences";

/** Sets the soloist’s own numbers: `{ pieceId, preferences }`; null goes back to those for the instrument. */
export async function setBreathPreferencesAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, setBreathPreferences);
}
