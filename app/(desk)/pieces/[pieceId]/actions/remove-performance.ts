"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import { removePerformance } from "@/lib/store/performances/remove-performance";

/** Takes a performance off: `{ pieceId, performanceId }`. */
export async function removePerformanceAction(input: unknown): Promise<ActionResult<PerformanceRecord>> {
  return onPiece(input, removePerformance);
}
