import type { Prisma, PerformanceKind as StoredKind } from "@/generated/prisma/client";
import { isoDateOf } from "@/lib/calendar/iso-date";
import { type SectionTimings, sectionTimingsSchema } from "@/lib/edition/section-timings";

export type PerformanceKind = "jury" | "examination" | "competition" | "recital" | "run-through";

/** An occasion on which an edition was played, or is going to be. */
export interface PerformanceRecord {
  readonly id: string;
  readonly pieceId: string;
  readonly kind: PerformanceKind;
  readonly name: string;
  /** ISO 8601 date, in the place's own calendar. */
  readonly on: string;
  /** "19:30" by the place's own clock; null when it is not known. */
  readonly startsAt: string | null;
  readonly place: string;
  readonly limitSeconds: number | null;
  readonly editionNumber: number;
  /** What the edition was computed to run when this was logged. */
  readonly plannedSeconds: number;
  /** By the clock; null until it was played. */
  readonly realSeconds: number | null;
  readonly remarks: string;
  /** What came of it: "passed", "second round", a mark; empty while nobody knows. */
  readonly result: string;
  /** What a stopwatch was tapped through; null when nobody tapped. */
  readonly sections: SectionTimings | null;
  /** How often it was changed since it was logged. */
  readonly revision: number;
  /** ISO 8601, UTC; when it was last changed, or logged. */
  readonly changedAt: string;
  readonly isRemoved: boolean;
}

export const performanceParts = {
  edition: { select: { number: true } },
} as const satisfies Prisma.PerformanceInclude;

type PerformanceRow = Prisma.PerformanceGetPayload<{ include: typeof performanceParts }>;

export function toPerformanceRecord(row: PerformanceRow): PerformanceRecord {
  const { id, pieceId, name, place, startsAt, limitSeconds, plannedSeconds, realSeconds } = row;
  const { remarks, result, revision } = row;
  return {
    ...{ id, pieceId, name, place, startsAt, limitSeconds, plannedSeconds, realSeconds },
    ...{ remarks, result, revision },
    kind: toKind(row.kind),
    on: isoDateOf(row.on),
    editionNumber: row.edition.number,
    // An archive from elsewhere may have brought in what is no timing of ours: it is kept, and not shown.
    sections: sectionTimingsSchema.safeParse(row.sections).data ?? null,
    changedAt: row.changedAt.toISOString(),
    isRemoved: row.removedAt !== null,
  };
}

/** The database client has no hyphens in its names. */
export function toStoredKind(kind: PerformanceKind): StoredKind {
  return kind === "run-through" ? "run_through" : kind;
}

export function toKind(stored: StoredKind): PerformanceKind {
  return stored === "run_through" ? "run-through" : stored;
}

export function toStoredDate(isoDate: string): Date {
  return new Date(`${isoDate}T00:00:00Z`);
}
