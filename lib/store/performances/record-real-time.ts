import { z } from "zod";
import { failure, type Result, success } from "@/lib/score/result";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import { reasonSchema } from "../proposals/reason-schema";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { realSecondsSchema } from "./log-performance";
import { type PerformanceRecord, performanceParts, toPerformanceRecord } from "./performance-record";

const recordSchema = z.object({
  performanceId: z.string().max(100),
  realSeconds: realSecondsSchema,
  remarks: reasonSchema,
});

/** After the occasion: how long it really took and what to change. What stood there before stays in the trail. */
export async function recordRealTime(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<PerformanceRecord, StoreProblem>> {
  const asked = parseInput(recordSchema, input);
  if (!asked.ok) return asked;
  const { performanceId, realSeconds, remarks } = asked.value;
  return inPiece(viewer, pieceId, "log-performance", async (work) => {
    const before = await work.tx.performance.findFirst({ where: { id: performanceId, pieceId } });
    if (!before) return failure({ kind: "not-found" });
    const row = await work.tx.performance.update({
      where: { id: performanceId },
      data: { realSeconds, remarks },
      include: performanceParts,
    });
    const about = {
      ...{ performanceId, realSeconds, remarks },
      before: { realSeconds: before.realSeconds, remarks: before.remarks },
    };
    await noteChange(work, { what: "real time recorded", about, change: "performances" });
    return success(toPerformanceRecord(row));
  });
}
