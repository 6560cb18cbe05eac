import { type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { type PerformanceRecord, performanceParts, toPerformanceRecord } from "./performance-record";

/** The performances of a piece, the latest first. */
export async function listPerformances(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<PerformanceRecord[], StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const rows = await database().performance.findMany({
    where: { pieceId },
    orderBy: [{ on: "desc" }, { createdAt: "desc" }],
    include: performanceParts,
  });
  return success(rows.map(toPerformanceRecord));
}

export interface MyPerformance extends PerformanceRecord {
  readonly pieceTitle: string;
}

/** The performances of every piece the viewer belongs to, the latest first. */
export async function listMyPerformances(viewer: Viewer): Promise<MyPerformance[]> {
  const rows = await database().performance.findMany({
    where: { piece: { members: { some: { userId: viewer.userId, removedAt: null } } } },
    orderBy: [{ on: "desc" }, { createdAt: "desc" }],
    include: { ...performanceParts, piece: { select: { title: true } } },
  });
  return rows.map((row) => ({ ...toPerformanceRecord(row), pieceTitle: row.piece.title }));
}
