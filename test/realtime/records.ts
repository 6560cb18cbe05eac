import { randomUUID } from "node:crypto";
import type * as Y from "yjs";
import type { BreathRecord } from "@/lib/room/breath-record";
import type { CommentRecord } from "@/lib/room/comment-record";

/** A comment on bar 3. */
export function comment(authorId: string, text: string, fields: Partial<CommentRecord> = {}): CommentRecord {
  return {
    id: randomUUID(),
    authorId,
    createdAt: "2026-11-25T08:00:00.000Z",
    text,
    about: { kind: "span", from: { barIndex: 2, offset: "0" }, to: { barIndex: 2, offset: "7/2" } },
    replyTo: null,
    deletedAt: null,
    print: false,
    ...fields,
  };
}

export function breath(authorId: string, barIndex: number, fields: Partial<BreathRecord> = {}): BreathRecord {
  return { id: randomUUID(), authorId, at: { barIndex, offset: "1/2" }, deletedAt: null, ...fields };
}

/** Writes past every check, as a tampered client could. */
export function put(doc: Y.Doc, map: string, record: { id: string }): void {
  doc.getMap(map).set(record.id, record);
}

export function textsIn(doc: Y.Doc): string[] {
  return [...doc.getMap("comments").values()].map((value) => (value as CommentRecord).text).sort();
}
