import { afterAll, beforeAll, describe, expect, test } from "vitest";
import * as Y from "yjs";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { database } from "@/lib/store/database";
import { appendRoomUpdates, type CheckedRoomUpdate } from "@/lib/store/room/append-room-updates";
import { readRoomLog } from "@/lib/store/room/read-room-log";
import { type AppendedEntry, GroupAppend } from "@/realtime/group-append";
import { bringGuest, bringPiece, type Guest, openHouse } from "@/test/realtime/house";
import { comment, put } from "@/test/realtime/records";

let house: Awaited<ReturnType<typeof openHouse>>;
let pianist: Guest;
let reader: Guest;
let stranger: Guest;

beforeAll(async () => {
  house = await openHouse();
  pianist = await bringGuest("Ines Varga");
  reader = await bringGuest("Page Turner");
  stranger = await bringGuest("Nobody Here");
});

afterAll(() => house.close());

const piece = () => bringPiece({ pianist, reader });

/** An update with one comment in it, checked against a log of `after` entries. */
function checked(pieceId: string, after: number, fields: Partial<CheckedRoomUpdate> = {}): CheckedRoomUpdate {
  const doc = openRoomDoc();
  put(doc, "comments", comment(pianist.userId, `after ${after}`));
  const update = Y.encodeStateAsUpdate(doc);
  return { viewer: pianist, pieceId, epoch: 1, after, update, ...fields };
}

describe("appending to several logs at once", () => {
  test("takes each that still fits its log and tells of the others why not", async () => {
    const pieces = await Promise.all(Array.from({ length: 6 }, piece));
    const [first = "", ahead = "", old = "", read = "", foreign = "", second = ""] = pieces;
    const answers = await appendRoomUpdates([
      checked(first, 0),
      checked(ahead, 1),
      checked(old, 0, { epoch: 2 }),
      checked(read, 0, { viewer: reader }),
      checked(foreign, 0, { viewer: stranger }),
      checked(second, 0),
    ]);
    expect(answers.map((answer) => (answer.ok ? answer.value.sequence : answer.problem.kind))).toEqual([
      1,
      "conflict",
      "stale-terms",
      "not-allowed",
      "not-found",
      1,
    ]);
    const lengths = await Promise.all(pieces.map(async (id) => (await readRoomLog(id))?.updates.length));
    expect(lengths).toEqual([1, 0, 0, 0, 0, 1]);
  });

  test("of two that were checked against the same log only one enters", async () => {
    const pieceId = await piece();
    const answers = await Promise.all(
      Array.from({ length: 8 }, () => appendRoomUpdates([checked(pieceId, 0)])),
    );
    expect(answers.flat().filter(({ ok }) => ok)).toHaveLength(1);
    expect((await readRoomLog(pieceId))?.updates).toHaveLength(1);
  });

  test("groups that share rooms never stand in each other's way", async () => {
    const pieces = await Promise.all(Array.from({ length: 12 }, piece));
    const groups = Array.from({ length: 6 }, (_, index) => {
      const turned = [...pieces.slice(index * 2), ...pieces.slice(0, index * 2)];
      return appendRoomUpdates(turned.map((pieceId) => checked(pieceId, 0)));
    });
    const taken = (await Promise.all(groups)).flat().filter(({ ok }) => ok);
    expect(taken).toHaveLength(pieces.length);
  });

  test("takes one update of a room at a time", async () => {
    const pieceId = await piece();
    await expect(appendRoomUpdates([checked(pieceId, 0), checked(pieceId, 1)])).rejects.toThrow(RangeError);
  });
});

describe("the journal of a node", () => {
  test("writes everything, each room in its order, and tells what it wrote", async () => {
    const told: AppendedEntry[] = [];
    const journal = new GroupAppend((entries) => told.push(...entries));
    const pieces = await Promise.all(Array.from({ length: 10 }, piece));
    await Promise.all(
      pieces.map(async (pieceId) => {
        for (let after = 0; after < 5; after += 1) {
          const answer = await journal.append(checked(pieceId, after));
          expect(answer).toEqual({ ok: true, value: after + 1 });
        }
      }),
    );
    expect(told).toHaveLength(50);
    const logs = await Promise.all(pieces.map(readRoomLog));
    expect(logs.map((log) => log?.updates.map(({ sequence }) => sequence))).toEqual(
      pieces.map(() => [1, 2, 3, 4, 5]),
    );
  });

  test("does not let a piece that somebody holds hold up the others", async () => {
    const journal = new GroupAppend(() => {});
    const [held, free] = await Promise.all([piece(), piece()]);
    let stuck: Promise<unknown> = Promise.resolve();
    await database().$transaction(async (tx) => {
      await tx.$queryRaw`SELECT 1 FROM "Piece" WHERE "id" = ${held} FOR UPDATE`;
      stuck = journal.append(checked(held, 0));
      // The next turn of the event loop: they do not share a statement.
      await new Promise((resolve) => setImmediate(() => setImmediate(resolve)));
      expect(await journal.append(checked(free, 0))).toEqual({ ok: true, value: 1 });
      expect((await readRoomLog(held))?.updates).toHaveLength(0);
    });
    expect(await stuck).toEqual({ ok: true, value: 1 });
  });

  test("does not let one that cannot be written hold up the others", async () => {
    const journal = new GroupAppend(() => {});
    const [good, bad] = await Promise.all([piece(), piece()]);
    // Beyond what the column holds.
    const answers = await Promise.allSettled([
      journal.append(checked(good, 0)),
      journal.append(checked(bad, 0, { epoch: 2 ** 40 })),
    ]);
    expect(answers.map(({ status }) => status)).toEqual(["fulfilled", "rejected"]);
    expect((await readRoomLog(good))?.updates).toHaveLength(1);
  });
});
