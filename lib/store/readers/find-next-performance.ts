import { isoDateOf } from "@/lib/calendar/iso-date";
import { now } from "../clock";
import { type Database, database } from "../database";

/** The day (ISO 8601) of a piece's next performance, today included; null when none is to come. */
export async function findNextPerformance(
  pieceId: string,
  db: Database = database(),
): Promise<string | null> {
  const today = new Date(`${isoDateOf(now())}T00:00:00Z`);
  const next = await db.performance.findFirst({
    where: { pieceId, on: { gte: today }, removedAt: null },
    orderBy: { on: "asc" },
    select: { on: true },
  });
  return next ? isoDateOf(next.on) : null;
}
