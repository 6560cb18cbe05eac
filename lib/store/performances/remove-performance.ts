import { z } from "zod";
import { type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { inPiece } from "../in-piece";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import type { PerformanceRecord } from "./performance-record";
import { findPerformance, rewritePerformance } from "./rewrite-performance";

const removeSchema = z.object({ performanceId: z.string().max(100) });

/** Takes a performance off the lists. It stays stored, and can be brought back. */
export async function removePerformance(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<PerformanceRecord, StoreProblem>> {
  return setRemoved(viewer, pieceId, input, true);
}

/** Brings back a performance as it stood when it was taken off. */
export async function restorePerformance(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<PerformanceRecord, StoreProblem>> {
  return setRemoved(viewer, pieceId, input, false);
}

async function setRemoved(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
  isRemoved: boolean,
): Promise<Result<PerformanceRecord, StoreProblem>> {
  const asked = parseInput(removeSchema, input);
  if (!asked.ok) return asked;
  return inPiece(viewer, pieceId, "log-performance", async (work) => {
    const found = await findPerformance(work, asked.value.performanceId);
    if (!found.ok || found.value.isRemoved === isRemoved) return found;
    const what = isRemoved ? "performance taken off" : "performance brought back";
    const data = { removedAt: isRemoved ? now() : null };
    return success(await rewritePerformance(work, found.value, data, what));
  });
}
