import { beforeEach, describe, expect, test } from "vitest";
import { database } from "@/lib/store/database";
import { appendRoomUpdate } from "@/lib/store/room/append-room-update";
import { readRoomLog } from "@/lib/store/room/read-room-log";
import { bringDuo, type Duo, kindOf, openStoreForFile, type Person, valued } from "./duo";

openStoreForFile();
let duo: Duo;
beforeEach(async () => {
  duo = await bringDuo();
});

const append = (person: Person, byte: number, epoch = 1) =>
  appendRoomUpdate(person, { pieceId: duo.pieceId, epoch, update: Uint8Array.of(byte), node: "test" });

describe("the log of a room", () => {
  test("keeps every update in order, whoever writes at once, without a gap", async () => {
    const writers = [duo.pianist, duo.soloist, duo.coach];
    const results = await Promise.all(
      Array.from({ length: 90 }, (_, index) => append(writers[index % 3] ?? duo.pianist, index)),
    );
    const given = results.map((result, index) => [valued(result).sequence, index] as const);
    const log = await readRoomLog(duo.pieceId);
    expect(log?.updates.map(({ sequence }) => sequence)).toEqual(
      Array.from({ length: 90 }, (_, index) => index + 1),
    );
    const byte = new Map(log?.updates.map(({ sequence, update }) => [sequence, update[0]]));
    for (const [sequence, index] of given) expect(byte.get(sequence)).toBe(index);
  });

  test("takes nothing from a reader, a stranger, or somebody who has left", async () => {
    await database().member.updateMany({
      where: { pieceId: duo.pieceId, userId: duo.coach.userId },
      data: { removedAt: new Date() },
    });
    expect(kindOf(await append(duo.reader, 1))).toBe("not-allowed");
    expect(kindOf(await append(duo.stranger, 1))).toBe("not-found");
    expect(kindOf(await append(duo.coach, 1))).toBe("not-found");
    expect(await readRoomLog(duo.pieceId)).toMatchObject({ sequence: 0, updates: [] });
  });

  test("takes nothing for a room that has started anew", async () => {
    expect(kindOf(await append(duo.pianist, 1, 2))).toBe("stale-terms");
  });

  test("is never changed or thrown away", async () => {
    valued(await append(duo.pianist, 1));
    const { pieceId } = duo;
    await expect(database().roomUpdate.deleteMany({ where: { pieceId } })).rejects.toThrow(/never changed/);
    await expect(
      database().roomUpdate.updateMany({ where: { pieceId }, data: { update: Buffer.of(9) } }),
    ).rejects.toThrow(/never changed/);
  });

  test("of a piece that is not there is null", async () => expect(await readRoomLog("nothing")).toBeNull());
});
