"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import {
  listPerformanceChanges,
  type PerformanceChange,
} from "@/lib/store/performances/list-performance-changes";

/** What was done to a performance since it was logged: `{ pieceId, performanceId }`. Changes nothing. */
export async function listPerformanceChangesAction(
  input: unknown,
): Promise<ActionResult<PerformanceChange[]>> {
  return onPiece(input, listPerformanceChanges);
}
