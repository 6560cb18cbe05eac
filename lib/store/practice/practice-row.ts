import type { PracticeEntry as PracticeRow } from "@/generated/prisma/client";
import { type PracticeRecord, triedTempoSchema } from "@/lib/practice/practice-entry";

export function toPracticeRecord(row: PracticeRow): PracticeRecord {
  const { id, fromBar, toBar, sourceHash, note, at, removedAt } = row;
  return {
    ...{ id, fromBar, toBar, sourceHash, note },
    tempo: triedTempoSchema.parse(row.tempo),
    at: at.toISOString(),
    removedAt: removedAt?.toISOString() ?? null,
  };
}
