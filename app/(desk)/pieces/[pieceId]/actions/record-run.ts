"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import { recordRun } from "@/lib/store/performances/record-run";

/** Keeps what a stopwatch was tapped through: `runSchema` with `{ pieceId }`. Sent twice, it is kept once. */
export async function recordRunAction(input: unknown): Promise<ActionResult<PerformanceRecord>> {
  return onPiece(input, recordRun);
}
