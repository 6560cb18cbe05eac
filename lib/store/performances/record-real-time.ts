import { z } from "zod";
import { type Result, success } from "@/lib/score/result";
import { inPiece } from "../in-piece";
import { parseInput } from "../parse-input";
import { titleSchema } from "../pieces/create-piece";
import { reasonSchema } from "../proposals/reason-schema";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { realSecondsSchema } from "./occasion-schema";
import type { PerformanceRecord } from "./performance-record";
import { findPerformance, rewritePerformance } from "./rewrite-performance";

const recordSchema = z.object({
  performanceId: z.string().max(100),
  realSeconds: realSecondsSchema,
  remarks: reasonSchema,
  result: titleSchema.optional(),
});

/** After the occasion: how long it really took, what came of it and what to change. What stood there stays in the trail. */
export async function recordRealTime(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<PerformanceRecord, StoreProblem>> {
  const asked = parseInput(recordSchema, input);
  if (!asked.ok) return asked;
  const { performanceId, ...written } = asked.value;
  return inPiece(viewer, pieceId, "log-performance", async (work) => {
    const found = await findPerformance(work, performanceId);
    if (!found.ok) return found;
    return success(await rewritePerformance(work, found.value, written, "real time recorded"));
  });
}
