import type { Prisma, PerformanceKind as StoredKind } from "@/generated/prisma/client";

export type PerformanceKind = "jury" | "examination" | "competition" | "recital" | "run-through";

/** An occasion on which an edition was played, or is going to be. */
export interface PerformanceRecord {
  readonly id: string;
  readonly pieceId: string;
  readonly kind: PerformanceKind;
  readonly name: string;
  /** ISO 8601 date, in the place's own calendar. */
  readonly on: string;
  readonly place: string;
  readonly limitSeconds: number | null;
  readonly editionNumber: number;
  /** What the edition was computed to run when this was logged. */
  readonly plannedSeconds: number;
  /** By the clock; null until it was played. */
  readonly realSeconds: number | null;
  readonly remarks: string;
}

export const performanceParts = {
  edition: { select: { number: true } },
} as const satisfies Prisma.PerformanceInclude;

type PerformanceRow = Prisma.PerformanceGetPayload<{ include: typeof performanceParts }>;

export function toPerformanceRecord(row: PerformanceRow): PerformanceRecord {
  const { id, pieceId, name, place, limitSeconds, plannedSeconds, realSeconds, remarks } = row;
  return {
    ...{ id, pieceId, name, place, limitSeconds, plannedSeconds, realSeconds, remarks },
    kind: toKind(row.kind),
    on: row.on.toISOString().slice(0, 10),
    editionNumber: row.edition.number,
  };
}

/** The database client has no hyphens in its names. */
export function toStoredKind(kind: PerformanceKind): StoredKind {
  return kind === "run-through" ? "run_through" : kind;
}

function toKind(stored: StoredKind): PerformanceKind {
  return stored === "run_through" ? "run-through" : stored;
}
