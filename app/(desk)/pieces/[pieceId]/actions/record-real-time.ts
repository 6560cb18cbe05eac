"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import { recordRealTime } from "@/lib/store/performances/record-real-time";

/** Records how long a logged performance really took: `{ pieceId, performanceId, realSeconds, remarks }`. */
export async function recordRealTimeAction(input: unknown): Promise<ActionResult<PerformanceRecord>> {
  return onPiece(input, recordRealTime);
}
