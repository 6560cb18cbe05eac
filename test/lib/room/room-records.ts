import * as Y from "yjs";
import type { BreathRecord } from "@/lib/room/breath-record";
import type { CommentRecord } from "@/lib/room/comment-record";
import type { CueRecord } from "@/lib/room/cue-record";
import type { RoomHistoryEntry } from "@/lib/room/history/room-history-entry";
import { judgeUpdate } from "@/lib/room/judge-update";
import { copyRoomDoc, openRoomDoc } from "@/lib/room/open-room-doc";
import type { PencilledVersionRecord } from "@/lib/room/pencilled-version-record";
import type { ResolutionRecord } from "@/lib/room/resolution-record";
import type { RoomMapName, RoomRecords } from "@/lib/room/room-keys";
import type { RoomMember } from "@/lib/room/room-member";
import { writeRecord } from "@/lib/room/write-record";

/** A comment of a member's on bars 12–14 by index. */
export function commentOf(
  { userId }: RoomMember,
  id: string,
  fields: Partial<CommentRecord> = {},
): CommentRecord {
  const [from, to] = [12, 15].map((barIndex) => ({ barIndex, offset: "0" }));
  return {
    id,
    authorId: userId,
    createdAt: "2026-11-25T08:00:00.000Z",
    text: "Wait for the breath",
    about: { kind: "span", from: from as BreathRecord["at"], to: to as BreathRecord["at"] },
    replyTo: null,
    deletedAt: null,
    print: false,
    ...fields,
  };
}

export function breathOf({ userId }: RoomMember, id: string, barIndex: number): BreathRecord {
  return { id, authorId: userId, at: { barIndex, offset: "0" }, deletedAt: null };
}

export function cueOf(
  { userId }: RoomMember,
  id: string,
  barIndex: number,
  fields: Partial<CueRecord> = {},
): CueRecord {
  return { id, authorId: userId, at: { barIndex, offset: "0" }, text: "Fl.", deletedAt: null, ...fields };
}

export function resolutionOf({ userId }: RoomMember, commentId: string, isResolved = true): ResolutionRecord {
  return { commentId, byId: userId, at: "2026-11-25T08:30:00.000Z", isResolved };
}

/** Version `id` of cut "p1": bars `from` to `to` by index, the second exclusive. */
export function versionOf(
  { userId }: RoomMember,
  id: string,
  bars: readonly [from: number, to: number],
  over: readonly string[] = [],
  fields: Partial<PencilledVersionRecord> = {},
): PencilledVersionRecord {
  const [from, to] = bars;
  return {
    id,
    cutId: "p1",
    authorId: userId,
    createdAt: `2026-11-25T08:00:00.000Z`,
    from: { barIndex: from, offset: "0" },
    to: { barIndex: to, offset: "0" },
    over: [...over],
    isRubbedOut: false,
    ...fields,
  };
}

export function put<Name extends RoomMapName>(
  doc: Y.Doc,
  map: Name,
  record: RoomRecords[Name],
  member: RoomMember,
): void {
  const written = writeRecord(doc, map, record, member);
  if (!written.ok) throw new Error(`not written: ${written.problem.kind}`);
}

/** A room's log: everything enters through the gate. */
export class TestLog {
  readonly entries: RoomHistoryEntry[] = [];
  doc = openRoomDoc();
  epoch = 1;

  /** Takes in what a document has beyond the room. */
  take(from: Y.Doc, member: RoomMember): void {
    const update = Y.encodeStateAsUpdate(from, Y.encodeStateVector(this.doc));
    const judged = judgeUpdate(this.doc, copyRoomDoc(this.doc), update, member, () => null);
    if (!judged.ok) throw new Error(`refused: ${judged.problem.kind}`);
    if (judged.value.addition) this.append(judged.value.addition, member.userId);
  }

  /** Somebody who has the room on their page writes one record. */
  write<Name extends RoomMapName>(member: RoomMember, map: Name, record: RoomRecords[Name]): void {
    const page = copyRoomDoc(this.doc);
    put(page, map, record, member);
    this.take(page, member);
  }

  /** The room begins anew from a document, as one entry of nobody's. */
  beginAnew(doc: Y.Doc): void {
    this.epoch += 1;
    this.doc = openRoomDoc();
    this.append(Y.encodeStateAsUpdate(doc), null);
  }

  append(update: Uint8Array, userId: string | null): void {
    const sequence = this.entries.length + 1;
    const at = new Date(Date.parse("2026-11-25T08:00:00.000Z") + sequence * 60_000);
    this.entries.push({ sequence, epoch: this.epoch, update, userId, at });
    Y.applyUpdate(this.doc, update);
  }
}
