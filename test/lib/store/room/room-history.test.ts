import { beforeEach, describe, expect, test } from "vitest";
import * as Y from "yjs";
import { database } from "@/lib/store/database";
import { readRoomHistory } from "@/lib/store/room/read-room-history";
import { readRoomRecordsAt } from "@/lib/store/room/read-room-records-at";
import { breathOf, commentOf, versionOf } from "@/test/lib/room/room-records";
import { bringDuo, type Duo, kindOf, openStoreForFile, type Person, valued } from "../duo";
import { RoomOfDuo } from "./room-of-duo";

openStoreForFile();
let duo: Duo;
let room: RoomOfDuo;
beforeEach(async () => {
  duo = await bringDuo();
  room = new RoomOfDuo(duo);
});

const member = (person: Person) => ({ ...person, role: "pianist" as const });

/** The pianist writes and rewords, the soloist pencils a cut in, the coach comments. */
async function writeSome(): Promise<void> {
  const { pianist, soloist, coach } = duo;
  await room.write(pianist, "pianist", "comments", commentOf(member(pianist), "c1"));
  await room.write(pianist, "pianist", "comments", commentOf(member(pianist), "c1", { text: "Wait for me" }));
  await room.write(soloist, "soloist", "pencilledCuts", versionOf(member(soloist), "v1", [9, 17]));
  await room.write(coach, "coach", "comments", commentOf(member(coach), "c2"));
}

describe("the history of a room", () => {
  test("tells who wrote what, from the stored log", async () => {
    await writeSome();
    const { epoch, sequence, changes } = valued(await readRoomHistory(duo.coach, duo.pieceId));
    expect([epoch, sequence]).toEqual([1, 4]);
    expect(changes.map(({ sequence: at, userId, map, key }) => [at, userId, map, key])).toEqual([
      [1, duo.pianist.userId, "comments", "c1"],
      [2, duo.pianist.userId, "comments", "c1"],
      [3, duo.soloist.userId, "pencilledCuts", "v1"],
      [4, duo.coach.userId, "comments", "c2"],
    ]);
    expect(changes[1]).toMatchObject({
      before: { text: "Wait for the breath" },
      after: { text: "Wait for me" },
    });
    const [row] = await database().roomUpdate.findMany({ where: { pieceId: duo.pieceId, sequence: 3 } });
    expect(changes[2]?.at).toBe(row?.createdAt.toISOString());
  });

  test("goes on where the room begins anew", async () => {
    await writeSome();
    const { pieceId, pianist } = duo;
    await database().$transaction([
      database().piece.update({ where: { id: pieceId }, data: { roomEpoch: 2, roomSequence: 5 } }),
      database().roomUpdate.create({
        data: {
          ...{ pieceId, sequence: 5, epoch: 2, userId: null },
          update: Buffer.from(Y.encodeStateAsUpdate(room.doc)),
        },
      }),
    ]);
    const { epoch, sequence, changes } = valued(await readRoomHistory(pianist, pieceId));
    expect([epoch, sequence, changes.length]).toEqual([2, 5, 4]);
    const before = valued(await readRoomRecordsAt(pianist, pieceId, 4));
    expect(valued(await readRoomRecordsAt(pianist, pieceId, 5))).toEqual(before);
  });

  test("of an empty room is empty", async () => {
    const { pianist, pieceId } = duo;
    expect(valued(await readRoomHistory(pianist, pieceId))).toEqual({ epoch: 1, sequence: 0, changes: [] });
  });

  test("gives the records as they stood", async () => {
    await writeSome();
    const { soloist, pieceId } = duo;
    await room.write(soloist, "soloist", "breaths", breathOf(member(soloist), "b1", 3));
    const at = async (sequence: number) => valued(await readRoomRecordsAt(soloist, pieceId, sequence));
    expect((await at(1)).comments.map(({ text }) => text)).toEqual(["Wait for the breath"]);
    expect((await at(3)).comments.map(({ text }) => text)).toEqual(["Wait for me"]);
    expect((await at(2)).pencilledCuts).toEqual([]);
    expect((await at(3)).pencilledCuts).toHaveLength(1);
    expect(Object.values(await at(0)).flat()).toEqual([]);
    expect(Object.values(await at(5)).flat()).toHaveLength(4);
  });

  test.each([6, -1, 1.5, Number.NaN, 2 ** 40])("has no moment %d", async (sequence) => {
    await writeSome();
    expect(kindOf(await readRoomRecordsAt(duo.pianist, duo.pieceId, sequence))).toBe("invalid-input");
  });

  test("is not for readers, strangers, or those who have left", async () => {
    await writeSome();
    const { pieceId, reader, stranger, coach } = duo;
    await database().member.updateMany({
      where: { pieceId, userId: coach.userId },
      data: { removedAt: new Date() },
    });
    for (const [person, kind] of [
      [reader, "not-allowed"],
      [stranger, "not-found"],
      [coach, "not-found"],
    ] as const) {
      expect(kindOf(await readRoomHistory(person, pieceId))).toBe(kind);
      expect(kindOf(await readRoomRecordsAt(person, pieceId, 1))).toBe(kind);
    }
    expect(kindOf(await readRoomHistory(duo.pianist, "nothing"))).toBe("not-found");
  });
});
