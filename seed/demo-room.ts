import { toPositionTerms } from "@/lib/edition/position-terms";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import type { RoomMapName, RoomRecords } from "@/lib/room/room-keys";
import { sayRoomProblem } from "@/lib/room/room-problem";
import { writeRecord } from "@/lib/room/write-record";
import { noQuarters } from "@/lib/score/quarters";
import { runAt } from "@/lib/store/clock";
import { appendRoomUpdate } from "@/lib/store/room/append-room-update";
import { sayStoreProblem } from "@/lib/store/store-problem";
import { type DemoComment, demoHistory } from "./demo-history";
import { type DemoName, demoPeople } from "./demo-people";

export interface DemoRoom {
  readonly pieceId: string;
  readonly userIds: Readonly<Record<DemoName, string>>;
  readonly openProposalId: string;
  readonly dateOf: (ago: { readonly days: number; readonly hours?: number }) => Date;
}

/** Writes the comments and breaths as their authors would: through the room's own check, into the room's log. */
export async function writeDemoRoom(room: DemoRoom): Promise<void> {
  const write = openWriter(room);
  const { breathsBefore, breathsMarked } = demoHistory;
  for (const barIndex of breathsBefore) {
    await write("matthis", room.dateOf(breathsMarked.ago), "breaths", {
      ...{ id: crypto.randomUUID(), authorId: room.userIds.matthis, deletedAt: null },
      at: startOf(barIndex),
    });
  }
  for (const comment of demoHistory.comments) await writeThread(room, write, comment);
}

type Write = <Name extends RoomMapName>(
  by: DemoName,
  at: Date,
  map: Name,
  record: RoomRecords[Name],
) => Promise<void>;

function openWriter({ pieceId, userIds }: DemoRoom): Write {
  const doc = openRoomDoc();
  return async (by, at, map, record) => {
    const updates: Uint8Array[] = [];
    doc.once("update", (update: Uint8Array) => updates.push(update));
    const { name, role } = demoPeople[by];
    const written = writeRecord(doc, map, record, { userId: userIds[by], name, role }, at);
    if (!written.ok) throw new Error(sayRoomProblem(written.problem));
    const [update] = updates;
    if (!update) throw new Error(`nothing was written to ${map}`);
    const whole = { pieceId, epoch: 1, update, node: "demo" };
    const stored = await runAt(at, () => appendRoomUpdate({ userId: userIds[by] }, whole));
    if (!stored.ok) throw new Error(sayStoreProblem(stored.problem));
  };
}

async function writeThread(room: DemoRoom, write: Write, comment: DemoComment): Promise<void> {
  const about =
    comment.about === "open cut"
      ? { kind: "proposal" as const, proposalId: room.openProposalId }
      : { kind: "span" as const, from: startOf(comment.about.first), to: startOf(comment.about.last + 1) };
  const first = newComment(room, comment, about, null);
  await write(comment.by, room.dateOf(comment.ago), "comments", first);
  for (const reply of comment.replies ?? []) {
    await write(reply.by, room.dateOf(reply.ago), "comments", newComment(room, reply, about, first.id));
  }
  if (!comment.resolved) return;
  const { ago, by } = comment.resolved;
  const at = room.dateOf(ago);
  await write(by, at, "resolutions", {
    ...{ commentId: first.id, byId: room.userIds[by], isResolved: true },
    at: at.toISOString(),
  });
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
