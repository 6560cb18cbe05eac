"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { logPerformance } from "@/lib/store/performances/log-performance";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";

/** Logs a performance: `{ pieceId, kind, name, on, place, limitSeconds, editionNumber, realSeconds, remarks }`. */
export async function logPerformanceAction(input: unknown): Promise<ActionResult<PerformanceRecord>> {
  return onPiece(input, logPerformance);
}
