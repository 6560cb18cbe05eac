"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { setTempoSettings } from "@/lib/store/pieces/set-tempo-settings";

/** Sets the duo’s tempi, allowances and timings: `{ pieceId, settings }`. */
export async function setTempoSettingsAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, setTempoSettings);
}
