"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { takeRunTimings } from "@/lib/store/performances/take-run-timings";

/** Takes tapped times as our timings: `{ pieceId, performanceId, sections }`, by index. */
export async function takeRunTimingsAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, takeRunTimings);
}
