import type { Prisma } from "@/generated/prisma/client";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { noteChange, type PieceChangeWork } from "../in-piece";
import type { StoreProblem } from "../store-problem";
import { type PerformanceRecord, performanceParts, toPerformanceRecord } from "./performance-record";

/** Somebody else's change came between what was on the screen and this one. */
export const performanceChanged: StoreProblem = {
  kind: "stale-terms",
  sentence: "It was changed meanwhile. Look at what stands there now, and change it again.",
};

/** A performance of the piece under change; "not-found" for one of another piece. */
export async function findPerformance(
  { tx, membership: { pieceId } }: PieceChangeWork,
  performanceId: string,
): Promise<Result<PerformanceRecord, StoreProblem>> {
  const row = await tx.performance.findFirst({
    where: { id: performanceId, pieceId },
    include: performanceParts,
  });
  return row ? success(toPerformanceRecord(row)) : failure({ kind: "not-found" });
}

type Written = Omit<PerformanceRecord, "id" | "pieceId" | "revision" | "changedAt">;

/**
 * Writes over a performance. The trail keeps what stood there and what stands there now, of everything that differs.
 *
 * @param what in the past tense, as the trail names it.
 * @param more to be kept in the trail beside it.
 */
export async function rewritePerformance(
  work: PieceChangeWork,
  before: PerformanceRecord,
  data: Prisma.PerformanceUncheckedUpdateInput,
  what: string,
  more: Prisma.InputJsonObject = {},
): Promise<PerformanceRecord> {
  const row = await work.tx.performance.update({
    where: { id: before.id },
    data: { ...data, changedAt: now(), revision: { increment: 1 } },
    include: performanceParts,
  });
  const after = toPerformanceRecord(row);
  const differing = listDifferences(before, after);
  const of = (record: PerformanceRecord) =>
    Object.fromEntries(differing.map((field) => [field, toJson(record[field])]));
  const about = {
    ...{ performanceId: before.id, editionNumber: after.editionNumber },
    ...more,
    ...{ before: of(before), after: of(after) },
  };
  await noteChange(work, { what, about, change: "performances" });
  return after;
}

const fields: readonly (keyof Written)[] = [
  ...(["kind", "name", "on", "startsAt", "place", "limitSeconds", "editionNumber"] as const),
  ...(["plannedSeconds", "realSeconds", "remarks", "result", "sections", "isRemoved"] as const),
];

function listDifferences(before: PerformanceRecord, after: PerformanceRecord): (keyof Written)[] {
  return fields.filter((field) => JSON.stringify(before[field]) !== JSON.stringify(after[field]));
}

function toJson(value: PerformanceRecord[keyof Written]): Prisma.InputJsonValue | null {
  return JSON.parse(JSON.stringify(value));
}
