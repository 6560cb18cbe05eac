import { toPositionTerms } from "@/lib/edition/position-terms";
import { type CommentsTouched, findCommentsTouched } from "@/lib/room/comments-in-changes";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import type { RoomMapName, RoomRecords } from "@/lib/room/room-keys";
import { sayRoomProblem } from "@/lib/room/room-problem";
import { writeRecord } from "@/lib/room/write-record";
import { noQuarters } from "@/lib/score/quarters";
import { runAt } from "@/lib/store/clock";
import { appendRoomUpdate } from "@/lib/store/room/append-room-update";
import { sayStoreProblem } from "@/lib/store/store-problem";
import { type Ago, type BarSpan, type DemoComment, demoHistory } from "./demo-history";
import { type DemoName, demoPeople } from "./demo-people";

export interface DemoRoom {
  readonly pieceId: string;
  readonly userIds: Readonly<Record<DemoName, string>>;
  readonly dateOf: (ago: Ago) => Date;
}

/** Something that somebody wrote in the room, and when. */
type DemoWriting = {
  [Name in RoomMapName]: { readonly map: Name; readonly record: RoomRecords[Name] };
}[RoomMapName] & { readonly by: DemoName; readonly at: Date };

/**
 * Writes what was said and marked in the room as its authors would: in the order of time, through the room's own
 * check, into the room's log.
 */
export class DemoRoomLog {
  readonly #room: DemoRoom;
  readonly #doc = openRoomDoc();
  #left: DemoWriting[];

  constructor(room: DemoRoom) {
    this.#room = room;
    const aboutBars = demoHistory.comments.flatMap((comment) =>
      comment.about === "open cut" ? [] : listThread(room, comment, aboutSpan(comment.about)),
    );
    this.#left = [...listBreaths(room), ...listCues(room), ...aboutBars, ...listPencilledCut(room)];
  }

  /** What happened before a moment. */
  async writeUntil(at: Date): Promise<void> {
    const isEarlier = (writing: DemoWriting) => writing.at < at;
    const now = this.#left.filter(isEarlier).sort((a, b) => a.at.getTime() - b.at.getTime());
    this.#left = this.#left.filter((writing) => !isEarlier(writing));
    for (const writing of now) await write(this.#room, this.#doc, writing);
  }

  /** All the rest, with what was said about the open cut. */
  async writeRest(openProposalId: string): Promise<void> {
    const about = { kind: "proposal" as const, proposalId: openProposalId };
    const aboutCut = demoHistory.comments.filter((comment) => comment.about === "open cut");
    this.#left.push(...aboutCut.flatMap((comment) => listThread(this.#room, comment, about)));
    await this.writeUntil(new Date(8.64e15));
  }
}

async function write(
  { pieceId, userIds }: DemoRoom,
  doc: ReturnType<typeof openRoomDoc>,
  { by, at, map, record }: DemoWriting,
): Promise<void> {
  const updates: Uint8Array[] = [];
  doc.once("update", (update: Uint8Array) => updates.push(update));
  const { name, role } = demoPeople[by];
  const comments = map === "comments" ? touchedBy(doc, record) : undefined;
  const written = writeRecord(doc, map, record, { userId: userIds[by], name, role }, at);
  if (!written.ok) throw new Error(sayRoomProblem(written.problem));
  const [update] = updates;
  if (!update) throw new Error(`nothing was written to ${map}`);
  const whole = { pieceId, epoch: 1, update, node: "demo", comments };
  const stored = await runAt(at, () => appendRoomUpdate({ userId: userIds[by] }, whole));
  if (!stored.ok) throw new Error(sayStoreProblem(stored.problem));
}

/** What writing a comment is to do, before it is done. */
function touchedBy(doc: ReturnType<typeof openRoomDoc>, after: RoomRecords["comments"]): CommentsTouched {
  const before = doc.getMap("comments").get(after.id);
  return findCommentsTouched([{ map: "comments", key: after.id, before, after, isOvertaken: false }]);
}

function listBreaths(room: DemoRoom): DemoWriting[] {
  const { breathsBefore, breathsMarked, breathTakenAway } = demoHistory;
  const mark = (barIndex: number): RoomRecords["breaths"] => ({
    ...{ id: crypto.randomUUID(), authorId: room.userIds.matthis, deletedAt: null },
    at: startOf(barIndex),
  });
  const at = room.dateOf(breathsMarked.ago);
  const takenAway = mark(breathTakenAway.before);
  const deletedAt = room.dateOf(breathTakenAway.ago);
  return [
    ...[...breathsBefore.map(mark), takenAway].map((record) => writing("matthis", at, "breaths", record)),
    writing("matthis", deletedAt, "breaths", { ...takenAway, deletedAt: deletedAt.toISOString() }),
  ];
}

function listCues(room: DemoRoom): DemoWriting[] {
  return demoHistory.cues.map(({ ago, by, bar, text }) => {
    const id = crypto.randomUUID();
    const record = { id, authorId: room.userIds[by], at: startOf(bar), text, deletedAt: null };
    return writing(by, room.dateOf(ago), "cues", record);
  });
}

function listPencilledCut(room: DemoRoom): DemoWriting[] {
  const { by, versions } = demoHistory.pencilledCut;
  const cutId = crypto.randomUUID();
  let over: string[] = [];
  return versions.map(({ ago, bars }) => {
    const at = room.dateOf(ago);
    const id = crypto.randomUUID();
    const version = {
      ...{ id, cutId, authorId: room.userIds[by], createdAt: at.toISOString() },
      ...{ from: startOf(bars.first), to: startOf(bars.last + 1), over, isRubbedOut: false },
    };
    over = [id];
    return writing(by, at, "pencilledCuts", version);
  });
}

function aboutSpan({ first, last }: BarSpan): RoomRecords["comments"]["about"] {
  return { kind: "span", from: startOf(first), to: startOf(last + 1) };
}

function listThread(
  room: DemoRoom,
  comment: DemoComment,
  about: RoomRecords["comments"]["about"],
): DemoWriting[] {
  const first = newComment(room, comment, about, null);
  const at = room.dateOf(comment.ago);
  const replies = (comment.replies ?? []).map((reply) =>
    writing(reply.by, room.dateOf(reply.ago), "comments", newComment(room, reply, about, first.id)),
  );
  const { by, printed } = comment;
  const print = printed ? [writing(by, room.dateOf(printed), "comments", { ...first, print: true })] : [];
  const resolution = listResolution(room, comment, first.id);
  return [...listWordings(room, comment, first, at), ...replies, ...print, ...resolution];
}

function listWordings(
  room: DemoRoom,
  { by, reworded }: DemoComment,
  record: RoomRecords["comments"],
  at: Date,
): DemoWriting[] {
  if (!reworded) return [writing(by, at, "comments", record)];
  const editedAt = room.dateOf(reworded.ago);
  return [
    writing(by, at, "comments", { ...record, text: reworded.from }),
    writing(by, editedAt, "comments", { ...record, editedAt: editedAt.toISOString() }),
  ];
}

function listResolution(room: DemoRoom, { resolved }: DemoComment, commentId: string): DemoWriting[] {
  if (!resolved) return [];
  const { ago, by } = resolved;
  const at = room.dateOf(ago);
  const record = { commentId, byId: room.userIds[by], at: at.toISOString(), isResolved: true };
  return [writing(by, at, "resolutions", record)];
}

function writing<Name extends RoomMapName>(
  by: DemoName,
  at: Date,
  map: Name,
  record: RoomRecords[Name],
): DemoWriting {
  // The name of the map decides the kind of record, so the two belong together.
  return { by, at, map, record } as DemoWriting;
}

function newComment(
  room: DemoRoom,
  { ago, by, text }: { ago: DemoComment["ago"]; by: DemoName; text: string },
  about: RoomRecords["comments"]["about"],
  replyTo: string | null,
): RoomRecords["comments"] {
  const createdAt = room.dateOf(ago).toISOString();
  const authorId = room.userIds[by];
  const id = crypto.randomUUID();
  return { id, authorId, createdAt, text, about, replyTo, deletedAt: null, print: false };
}

/** The concertino begins with an upbeat that is bar 0, so that printed number and index are the same. */
function startOf(bar: number) {
  return toPositionTerms({ barIndex: bar, offset: noQuarters });
}
