import { uuidv4 } from "lib0/random";
import type { CommentSubject } from "@/lib/room/comment";
import type { CommentRecord } from "@/lib/room/comment-record";
import type { CueRecord } from "@/lib/room/cue-record";
import { findRestoration, type Restoration } from "@/lib/room/history/find-restoration";
import type { RoomRecordsAt } from "@/lib/room/history/room-records-at";
import type { UnsavedRecord } from "@/lib/room/list-unsaved";
import { toPositionRecord } from "@/lib/room/position-record";
import { findRecord } from "@/lib/room/read-records";
import type { Position } from "@/lib/score/position";
import { type PencilActions, pencilActions } from "./pencil-actions";
import type { RoomSession, Written } from "./room-session";

export interface NewComment {
  readonly text: string;
  readonly about: CommentSubject;
  /** The comment it answers. */
  readonly replyTo?: string | null;
}

/** What a person does in a room. Each tells what was written, or why nothing was. */
export interface RoomActions extends PencilActions {
  addComment(comment: NewComment): Written;
  editComment(id: string, text: string): Written;
  deleteComment(id: string): Written;
  /** Brings a deleted comment back. */
  restoreComment(id: string): Written;
  /** Resolves a comment, or opens it again. */
  resolveComment(id: string, isResolved?: boolean): Written;
  /** Says that one's own comment is to be printed in the edition, or no longer. */
  printComment(id: string, print: boolean): Written;
  addBreath(at: Position): Written;
  removeBreath(id: string): Written;
  /** Brings a removed breath back. */
  restoreBreath(id: string): Written;
  /** Writes a cue over the reduction. */
  addCue(at: Position, text: string): Written;
  rewordCue(id: string, text: string): Written;
  removeCue(id: string): Written;
  /** Brings a cue back that was taken off. */
  restoreCue(id: string): Written;
  /** What this person may write to make the room as it was; nothing is written. Null while the room is not open. */
  planRestoration(then: RoomRecordsAt): Restoration | null;
  /** Writes records as an earlier state of the room has them (`findRestoration`), together. */
  restoreWrites(writes: readonly UnsavedRecord[]): Written;
  /** Shows the others which bar one looks at; null when none. */
  showWhere(barIndex: number | null): void;
  /** Shows the others which comment one is writing in; null when none. */
  showEditing(commentId: string | null): void;
  /** Lets go of something that was kept. */
  dismissKept(key: string): void;
  /** Writes something that was kept again, as it was. What is refused stays kept. */
  writeKeptAgain(key: string): Written;
  /** The same for everything that is kept. */
  writeAllKeptAgain(): Written;
  /** Everything that is kept, as the text of a JSON file. */
  exportKept(): string;
}

const gone: Written = { ok: false, sentence: "This is no longer here." };

/** The actions of one stay. `now` gives the writer's time. */
export function roomActions(session: RoomSession, now: () => Date = () => new Date()): RoomActions {
  const at = () => now().toISOString();
  const changeComment = (id: string, change: Partial<CommentRecord>): Written => {
    const record = findRecord(session.doc, "comments", id);
    return record ? session.write("comments", id, { ...record, ...change }) : gone;
  };
  const markBreath = (id: string, deletedAt: string | null): Written => {
    const record = findRecord(session.doc, "breaths", id);
    return record ? session.write("breaths", id, { ...record, deletedAt }) : gone;
  };
  const changeCue = (id: string, change: Partial<CueRecord>): Written => {
    const record = findRecord(session.doc, "cues", id);
    return record ? session.write("cues", id, { ...record, ...change }) : gone;
  };
  return {
    ...pencilActions(session, at),
    addComment: (comment) => addComment(session, comment, at()),
    editComment: (id, text) => changeComment(id, { text: text.trim(), editedAt: at() }),
    deleteComment: (id) => changeComment(id, { deletedAt: at() }),
    restoreComment: (id) => changeComment(id, { deletedAt: null }),
    printComment: (id, print) => changeComment(id, { print }),
    resolveComment: (id, isResolved = true) =>
      findRecord(session.doc, "comments", id)
        ? session.write("resolutions", id, { commentId: id, byId: session.me.userId, at: at(), isResolved })
        : gone,
    addBreath: (position) => {
      const id = uuidv4();
      const record = { id, authorId: session.me.userId, at: toPositionRecord(position), deletedAt: null };
      return session.write("breaths", id, record);
    },
    removeBreath: (id) => markBreath(id, at()),
    restoreBreath: (id) => markBreath(id, null),
    addCue: (position, text) => {
      const [id, authorId] = [uuidv4(), session.me.userId];
      const record = { id, authorId, at: toPositionRecord(position), text: text.trim(), deletedAt: null };
      return session.write("cues", id, record);
    },
    rewordCue: (id, text) => changeCue(id, { text: text.trim() }),
    removeCue: (id) => changeCue(id, { deletedAt: at() }),
    restoreCue: (id) => changeCue(id, { deletedAt: null }),
    planRestoration: (then) => findRestoration(session.doc, then, session.me, now()),
    restoreWrites: (writes) => session.writeAll(writes),
    showWhere: (barIndex) => session.show({ barIndex }),
    showEditing: (editing) => session.show({ editing }),
    dismissKept: (key) => session.dismissKept(key),
    writeKeptAgain: (key) => session.writeKeptAgain((name) => name === key),
    writeAllKeptAgain: () => session.writeKeptAgain(() => true),
    exportKept: () => session.exportKept(at()),
  };
}

function addComment(session: RoomSession, { text, about, replyTo = null }: NewComment, at: string): Written {
  const id = uuidv4();
  return session.write("comments", id, {
    id,
    authorId: session.me.userId,
    createdAt: at,
    text: text.trim(),
    about: toRecord(about),
    replyTo,
    deletedAt: null,
    print: false,
  });
}

function toRecord(about: CommentSubject): CommentRecord["about"] {
  return about.kind === "span"
    ? { kind: "span", from: toPositionRecord(about.from), to: toPositionRecord(about.to) }
    : { kind: "proposal", proposalId: about.proposalId };
}
