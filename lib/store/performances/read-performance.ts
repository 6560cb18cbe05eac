import { failure, type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { type MyPerformance, namePiece, pieceNameParts } from "./list-performances";
import { performanceParts, toPerformanceRecord } from "./performance-record";

/** One performance of a piece; "not-found" for one that was taken off. */
export async function readPerformance(
  viewer: Viewer,
  pieceId: string,
  performanceId: string,
): Promise<Result<MyPerformance, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId, "read-performances");
  if (!membership.ok) return membership;
  const row = await database().performance.findFirst({
    where: { id: performanceId, pieceId, removedAt: null },
    include: { ...performanceParts, piece: { select: pieceNameParts } },
  });
  if (!row) return failure({ kind: "not-found" });
  return success({ ...toPerformanceRecord(row), pieceTitle: namePiece(row.piece) });
}
