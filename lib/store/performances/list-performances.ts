import { type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { rolesThatMay } from "../who-may";
import { type PerformanceRecord, performanceParts, toPerformanceRecord } from "./performance-record";

const latestFirst = [{ on: "desc" }, { startsAt: "desc" }, { createdAt: "desc" }] as const;

/** The performances of a piece, the latest first; none that was taken off. */
export async function listPerformances(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<PerformanceRecord[], StoreProblem>> {
  return listThose(viewer, pieceId, null);
}

/** Those that were taken off and can be brought back. */
export async function listRemovedPerformances(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<PerformanceRecord[], StoreProblem>> {
  return listThose(viewer, pieceId, { not: null });
}

async function listThose(
  viewer: Viewer,
  pieceId: string,
  removedAt: null | { not: null },
): Promise<Result<PerformanceRecord[], StoreProblem>> {
  const membership = await readMembership(viewer, pieceId, "read-performances");
  if (!membership.ok) return membership;
  const rows = await database().performance.findMany({
    where: { pieceId, removedAt },
    orderBy: [...latestFirst],
    include: performanceParts,
  });
  return success(rows.map(toPerformanceRecord));
}

export interface MyPerformance extends PerformanceRecord {
  /** With the occasion that it is prepared for, where the same music has several: "Concertino (Recital)". */
  readonly pieceTitle: string;
}

/** What is read of a piece to name it beside its performances. */
export const pieceNameParts = { title: true, branchName: true } as const;

export function namePiece({ title, branchName }: { title: string; branchName: string | null }): string {
  return branchName ? `${title} (${branchName})` : title;
}

/** Pieces in which the viewer may read the performances. */
export function piecesToRead({ userId }: Viewer) {
  const role = { in: rolesThatMay("read-performances") };
  return { deletedAt: null, members: { some: { userId, removedAt: null, role } } };
}

/** The performances of every piece whose performances the viewer may read, the latest first; none that was taken off. */
export async function listMyPerformances(viewer: Viewer): Promise<MyPerformance[]> {
  const rows = await database().performance.findMany({
    where: { removedAt: null, piece: piecesToRead(viewer) },
    orderBy: [...latestFirst],
    include: { ...performanceParts, piece: { select: pieceNameParts } },
  });
  return rows.map((row) => ({ ...toPerformanceRecord(row), pieceTitle: namePiece(row.piece) }));
}
