"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { changePerformance } from "@/lib/store/performances/change-performance";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";

/** Writes a performance anew: what `logPerformanceAction` takes, with `{ performanceId, revision }`. */
export async function changePerformanceAction(input: unknown): Promise<ActionResult<PerformanceRecord>> {
  return onPiece(input, changePerformance);
}
