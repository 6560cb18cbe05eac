import type * as Y from "yjs";
import type { Comment, CommentSubject } from "./comment";
import type { CommentRecord } from "./comment-record";
import { toPosition } from "./position-record";
import { readRecords } from "./read-records";
import type { ResolutionRecord } from "./resolution-record";

/** All comments of a room, deleted ones among them, in the order in which they were written. */
export function readComments(doc: Y.Doc): Comment[] {
  const resolutions = new Map(readRecords(doc, "resolutions").map((record) => [record.commentId, record]));
  return readRecords(doc, "comments")
    .map((record) => toComment(record, resolutions.get(record.id)))
    .sort((a, b) => compareText(a.createdAt, b.createdAt) || compareText(a.id, b.id));
}

function toComment(record: CommentRecord, resolution: ResolutionRecord | undefined): Comment {
  const { id, authorId, createdAt, text, replyTo, deletedAt, editedAt = null, print } = record;
  const about = toSubject(record.about);
  const resolvedBy = resolution?.isResolved ? resolution.byId : null;
  const reopenedBy = resolution && !resolution.isResolved ? resolution.byId : null;
  const state = { resolvedBy, reopenedBy, deletedAt, editedAt, print };
  return { id, authorId, createdAt, text, about, replyTo, ...state };
}

function toSubject(about: CommentRecord["about"]): CommentSubject {
  return about.kind === "span"
    ? { kind: "span", from: toPosition(about.from), to: toPosition(about.to) }
    : about;
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
