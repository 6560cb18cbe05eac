"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import { restorePerformance } from "@/lib/store/performances/remove-performance";

/** Brings a performance back: `{ pieceId, performanceId }`. */
export async function restorePerformanceAction(input: unknown): Promise<ActionResult<PerformanceRecord>> {
  return onPiece(input, restorePerformance);
}
