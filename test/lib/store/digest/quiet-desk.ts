import { randomUUID } from "node:crypto";
import * as Y from "yjs";
import type { CommentRecord } from "@/lib/room/comment-record";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import type { RoomMapName, RoomRecords } from "@/lib/room/room-keys";
import { writeRecord } from "@/lib/room/write-record";
import { runAt } from "@/lib/store/clock";
import { database } from "@/lib/store/database";
import { proposeCut } from "@/lib/store/proposals/propose-cut";
import { appendRoomUpdate } from "@/lib/store/room/append-room-update";
import type { MemberRole } from "@/lib/store/who-may";
import { bringDuo, cutOf, type Duo, type Person, valued } from "../duo";

/** The day on which everything in these tests happens. */
const morning = Date.parse("2026-03-14T08:00:00Z");
const day = 24 * 60;

/** A time so many minutes after the morning. */
export function minute(minutes: number): Date {
  return new Date(morning + minutes * 60_000);
}

export type Seat = "pianist" | "soloist" | "coach" | "reader";

/** A piece whose people have been in it for long and have seen all that is there, with its room. */
export interface QuietDesk extends Duo {
  /** Writes a record in the room at a minute. */
  write<Name extends RoomMapName>(
    minutes: number,
    who: Seat,
    map: Name,
    record: RoomRecords[Name],
  ): Promise<void>;
  /** Writes a comment on bars 3 to 5. @returns the comment. */
  comment(minutes: number, who: Seat, text: string, fields?: Partial<CommentRecord>): Promise<CommentRecord>;
  propose(minutes: number, who: "pianist" | "soloist", from: number, to: number): Promise<void>;
  /** Leaves the piece, having seen everything. */
  leave(minutes: number, who: Seat): Promise<void>;
  /** Something in the trail that takes long to bring about otherwise. */
  note(minutes: number, who: Seat, what: string, about: object): Promise<void>;
}

export async function bringQuietDesk(title = "Concertino"): Promise<QuietDesk> {
  const duo = await runAt(minute(-20 * day), () => bringDuo({ title }));
  const { pieceId } = duo;
  await database().member.updateMany({ where: { pieceId }, data: { joinedAt: minute(-20 * day) } });
  const doc = openRoomDoc();
  const desk: QuietDesk = {
    ...duo,
    write: async (minutes, who, map, record) => {
      const before = Y.encodeStateVector(doc);
      const member = { userId: duo[who].userId, name: duo[who].name, role: who satisfies MemberRole };
      const written = writeRecord(doc, map, record, member, minute(minutes));
      if (!written.ok) throw new Error(JSON.stringify(written.problem));
      await append(duo[who], pieceId, Y.encodeStateAsUpdate(doc, before), minutes);
    },
    comment: async (minutes, who, text, fields = {}) => {
      const record = commentOf(duo[who], text, minutes, fields);
      await desk.write(minutes, who, "comments", record);
      return record;
    },
    propose: async (minutes, who, from, to) => {
      await runAt(minute(minutes), async () =>
        valued(await proposeCut(duo[who], pieceId, cutOf(duo, from, to))),
      );
    },
    leave: async (minutes, who) => {
      const { roomSequence } = await database().piece.findUniqueOrThrow({ where: { id: pieceId } });
      const { userId } = duo[who];
      const seen = { sequence: roomSequence, at: minute(minutes) };
      const where = { pieceId_userId: { pieceId, userId } };
      await database().roomVisit.upsert({ where, create: { pieceId, userId, ...seen }, update: seen });
    },
    note: async (minutes, who, what, about) => {
      const { userId } = duo[who];
      await database().auditEntry.create({ data: { pieceId, userId, what, about, at: minute(minutes) } });
    },
  };
  return desk;
}

async function append(who: Person, pieceId: string, update: Uint8Array, minutes: number): Promise<void> {
  const entry = { pieceId, epoch: 1, update, node: "test" };
  await runAt(minute(minutes), async () => valued(await appendRoomUpdate(who, entry)));
}

function commentOf(
  { userId }: Person,
  text: string,
  minutes: number,
  fields: Partial<CommentRecord>,
): CommentRecord {
  return {
    id: randomUUID(),
    authorId: userId,
    createdAt: minute(minutes).toISOString(),
    text,
    about: { kind: "span", from: { barIndex: 2, offset: "0" }, to: { barIndex: 5, offset: "0" } },
    replyTo: null,
    deletedAt: null,
    print: false,
    ...fields,
  };
}
