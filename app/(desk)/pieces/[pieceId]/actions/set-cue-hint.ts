"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import type { CueHintRecord } from "@/lib/store/hints/cue-hint-record";
import { setCueHint } from "@/lib/store/hints/set-cue-hint";

/** Writes the duo’s own words on an instrument’s sound: `{ pieceId, instrument, text }`, an empty text for the usual words. */
export async function setCueHintAction(input: unknown): Promise<ActionResult<CueHintRecord>> {
  return onPiece(input, setCueHint);
}
