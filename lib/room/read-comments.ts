import type * as Y from "yjs";
import type { Comment, CommentSubject } from "./comment";
import type { CommentRecord } from "./comment-record";
import { toPosition } from "./position-record";
import { readRecords } from "./read-records";

/** All comments of a room, deleted ones among them, in the order in which they were written. */
export function readComments(doc: Y.Doc): Comment[] {
  const resolved = new Map(
    readRecords(doc, "resolutions").map((record) => [
      record.commentId,
      record.isResolved ? record.byId : null,
    ]),
  );
  return readRecords(doc, "comments")
    .map((record) => toComment(record, resolved.get(record.id) ?? null))
    .sort((a, b) => compareText(a.createdAt, b.createdAt) || compareText(a.id, b.id));
}

function toComment(record: CommentRecord, resolvedBy: string | null): Comment {
  const { id, authorId, createdAt, text, replyTo, deletedAt, editedAt = null } = record;
  const about = toSubject(record.about);
  return { id, authorId, createdAt, text, about, replyTo, resolvedBy, deletedAt, editedAt };
}

function toSubject(about: CommentRecord["about"]): CommentSubject {
  return about.kind === "span"
    ? { kind: "span", from: toPosition(about.from), to: toPosition(about.to) }
    : about;
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
