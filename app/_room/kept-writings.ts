import type * as Y from "yjs";
import { z } from "zod";
import { listUnsaved, type UnsavedRecord } from "@/lib/room/list-unsaved";
import { findRecord } from "@/lib/room/read-records";
import { recordSchemas } from "@/lib/room/room-keys";
import { sortKeys } from "@/lib/room/sort-keys";
import type { KeptWriting } from "./room-view";

/** A record set aside for its writer, because the server did not take it or no longer has it. */
export type KeptRecord = UnsavedRecord & {
  readonly sentence: string;
  /** It comes from an earlier room and is not yet compared with this one: it may be there, as it was. */
  readonly isToCompare?: boolean;
};

const base = { key: z.string(), sentence: z.string(), isToCompare: z.boolean().optional() };

const keptSchema = z.discriminatedUnion("map", [
  z.object({ ...base, map: z.literal("comments"), record: recordSchemas.comments }),
  z.object({ ...base, map: z.literal("resolutions"), record: recordSchemas.resolutions }),
  z.object({ ...base, map: z.literal("breaths"), record: recordSchemas.breaths }),
  z.object({ ...base, map: z.literal("cues"), record: recordSchemas.cues }),
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

/** What a record is called among the kept ones. A resolution has the key of its comment, so the map belongs to it. */
export function keptName({ map, key }: Pick<KeptRecord, "map" | "key">): string {
  return `${map}/${key}`;
}

const kinds = {
  comments: "comment",
  resolutions: "resolution",
  breaths: "breath",
  pencilledCuts: "pencilled cut",
  cues: "cue",
} as const;

export function toKeptWriting(kept: KeptRecord): KeptWriting {
  return {
    key: keptName(kept),
    kind: kinds[kept.map],
    text: kept.map === "comments" || kept.map === "cues" ? kept.record.text : null,
    sentence: kept.sentence,
  };
}

/** The two lists as one, each record once, the newer word first. */
export function mergeKept(newer: readonly KeptRecord[], older: readonly KeptRecord[]): KeptRecord[] {
  const names = new Set(newer.map(keptName));
  return [...newer, ...older.filter((entry) => !names.has(keptName(entry)))];
}

/** Everything in a document that this person wrote. */
export function listOwn(doc: Y.Doc, userId: string): UnsavedRecord[] {
  // The document with nothing stored of it.
  return listUnsaved(doc, new Map()).filter((record) => isOwn(record, userId));
}

/** Whether a record is this person's. */
export function isOwn({ record }: UnsavedRecord, userId: string): boolean {
  return ("authorId" in record ? record.authorId : record.byId) === userId;
}

/** Whether a document has this very record. */
export function hasSame(doc: Y.Doc, { map, key, record }: UnsavedRecord): boolean {
  const there = findRecord(doc, map, key);
  return there !== null && JSON.stringify(sortKeys(there)) === JSON.stringify(sortKeys(record));
}

/** Kept writings as a file: JSON that can be read in any editor, with the records as the room holds them. */
export function writeKeptFile(
  kept: readonly KeptRecord[],
  about: { readonly pieceId: string; readonly userId: string; readonly name: string; readonly at: string },
): string {
  const { pieceId, userId, name, at } = about;
  const writings = kept.map(({ map, sentence, record }) => ({ kind: kinds[map], why: sentence, record }));
  return `${JSON.stringify({ of: "Colla Parte", pieceId, writtenBy: { userId, name }, savedAt: at, writings }, null, 2)}\n`;
}
