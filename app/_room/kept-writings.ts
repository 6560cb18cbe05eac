import { z } from "zod";
import type { UnsavedRecord } from "@/lib/room/list-unsaved";
import { recordSchemas } from "@/lib/room/room-keys";
import type { KeptWriting } from "./room-view";

/** A record that the server did not take, and why. */
export type KeptRecord = UnsavedRecord & { readonly sentence: string };

const base = { key: z.string(), sentence: z.string() };

const keptSchema = z.discriminatedUnion("map", [
  z.object({ ...base, map: z.literal("comments"), record: recordSchemas.comments }),
  z.object({ ...base, map: z.literal("resolutions"), record: recordSchemas.resolutions }),
  z.object({ ...base, map: z.literal("breaths"), record: recordSchemas.breaths }),
  z.object({ ...base, map: z.literal("pencilledCuts"), record: recordSchemas.pencilledCuts }),
]);

/** Reads what was kept in the browser; whatever is no such record is passed over. */
export function readKept(note: unknown): KeptRecord[] {
  if (!Array.isArray(note)) return [];
  return note.flatMap((entry) => {
    const parsed = keptSchema.safeParse(entry);
    return parsed.success ? [parsed.data] : [];
  });
}

const kinds = {
  comments: "comment",
  resolutions: "resolution",
  breaths: "breath",
  pencilledCuts: "pencilled cut",
} as const;

export function toKeptWriting(kept: KeptRecord): KeptWriting {
  return {
    key: kept.key,
    kind: kinds[kept.map],
    text: kept.map === "comments" ? kept.record.text : null,
    sentence: kept.sentence,
  };
}

/** The two lists as one, each record once, the newer word first. */
export function mergeKept(newer: readonly KeptRecord[], older: readonly KeptRecord[]): KeptRecord[] {
  const isNewer = (entry: KeptRecord) => newer.some(({ map, key }) => map === entry.map && key === entry.key);
  return [...newer, ...older.filter((entry) => !isNewer(entry))];
}
