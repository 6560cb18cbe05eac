import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import * as Y from "yjs";
import type { CommentRecord } from "@/lib/room/comment-record";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { roomAsJson } from "@/lib/room/room-as-json";
import { database } from "@/lib/store/database";
import { appendRoomUpdates } from "@/lib/store/room/append-room-updates";
import { takeRoomSnapshot } from "@/lib/store/room/room-snapshot";
import { startRoomAnew } from "@/lib/store/room/start-room-anew";
import { loadRoom } from "@/realtime/persist";
import { bringGuest, bringPiece, type Guest, openHouse, type RunningNode } from "@/test/realtime/house";
import { breath, comment, put, textsIn } from "@/test/realtime/records";
import { Visitor } from "@/test/realtime/visitor";

let house: Awaited<ReturnType<typeof openHouse>>;
let node: RunningNode;
let pianist: Guest;
let soloist: Guest;
let pieceId: string;
const visitors: Visitor[] = [];

beforeAll(async () => {
  house = await openHouse();
  // Whatever is found out here, is found out by being told.
  node = await house.startNode({ recheckMs: 3_600_000 });
  pianist = await bringGuest("Ines Varga");
  soloist = await bringGuest("Tobias Lenk");
});

beforeEach(async () => {
  pieceId = await bringPiece({ pianist, soloist });
});

afterEach(() => {
  for (const visitor of visitors.splice(0)) visitor.leave();
});

afterAll(() => house.close());

async function visit(guest: Guest, at = node): Promise<Visitor> {
  const visitor = new Visitor(at, pieceId, guest);
  visitors.push(visitor);
  await visitor.until(() => visitor.provider.synced);
  return visitor;
}

const rows = () => database().roomUpdate.findMany({ where: { pieceId }, orderBy: { sequence: "asc" } });

describe("starting a room anew", () => {
  test("keeps what stands and the log, and sends everybody out on every node at once", async () => {
    const second = await house.startNode({ recheckMs: 3_600_000 });
    const [ines, tobias] = [await visit(pianist), await visit(soloist, second)];
    const first = comment(pianist.userId, "Softer here");
    put(ines.doc, "comments", first);
    const reworded: CommentRecord = { ...first, text: "Much softer here" };
    put(ines.doc, "comments", reworded);
    put(ines.doc, "comments", comment(pianist.userId, "Gone", { deletedAt: "2026-11-25T09:00:00.000Z" }));
    put(tobias.doc, "breaths", breath(soloist.userId, 7));
    await ines.until(() => ines.unsaved === 0 && ines.doc.getMap("breaths").size === 1);
    await tobias.until(() => tobias.unsaved === 0 && textsIn(tobias.doc).length === 2);
    const before = roomAsJson(ines.doc);
    const started = await startRoomAnew(pieceId);
    expect(started).toEqual({ title: "Concertino", epoch: 2, sequence: 5, recordCount: 3 });
    await Promise.all([ines, tobias].map((visitor) => visitor.until(() => visitor.closes.includes(4409))));
    expect((await rows()).map(({ sequence, epoch, userId }) => [sequence, epoch, userId === null])).toEqual([
      [1, 1, false],
      [2, 1, false],
      [3, 1, false],
      [4, 1, false],
      [5, 2, true],
    ]);
    const again = await visit(pianist, second);
    expect(again.welcomes[0]?.epoch).toBe(2);
    expect(roomAsJson(again.doc)).toBe(before);
  });

  test("leaves everybody's records theirs", async () => {
    const ines = await visit(pianist);
    const [own, other] = [comment(pianist.userId, "Mine"), comment(pianist.userId, "Mine too")];
    put(ines.doc, "comments", own);
    put(ines.doc, "comments", other);
    await ines.until(() => ines.unsaved === 0);
    await startRoomAnew(pieceId);
    await ines.until(() => ines.closes.includes(4409));
    const [author, stranger] = [await visit(pianist), await visit(soloist)];
    const reworded: CommentRecord = { ...own, text: "Mine, reworded", editedAt: "2026-11-25T09:00:00.000Z" };
    put(author.doc, "comments", reworded);
    await stranger.until(() => textsIn(stranger.doc).includes("Mine, reworded"));
    const meddled: CommentRecord = { ...other, text: "Not mine" };
    put(stranger.doc, "comments", meddled);
    await stranger.until(() => stranger.refusals.length > 0);
    expect(author.refusals).toEqual([]);
  });

  test("again and again, with snapshots in between", async () => {
    for (const round of [1, 2, 3]) {
      const ines = await visit(pianist);
      put(ines.doc, "comments", comment(pianist.userId, `round ${round}`));
      await ines.until(() => ines.unsaved === 0);
      if (round < 3) expect((await takeRoomSnapshot(pieceId)).kind).toBe("taken");
      expect((await startRoomAnew(pieceId))?.epoch).toBe(round + 1);
      await ines.until(() => ines.closes.includes(4409));
      const loaded = await loadRoom(pieceId, (line) => expect(line).toBeUndefined());
      expect([loaded?.epoch, loaded && textsIn(loaded.doc).length]).toEqual([round + 1, round]);
    }
    expect(await takeRoomSnapshot(pieceId, { isRenewal: true })).toEqual({ kind: "taken", sequence: 6 });
    const snapshots = await database().roomSnapshot.findMany({
      where: { pieceId },
      orderBy: { epoch: "asc" },
    });
    expect(snapshots.map(({ epoch, sequence }) => [epoch, sequence])).toEqual([
      [1, 1],
      [2, 3],
      [4, 6],
    ]);
    const loaded = await loadRoom(pieceId, (line) => expect(line).toBeUndefined());
    expect(loaded && textsIn(loaded.doc)).toEqual(["round 1", "round 2", "round 3"]);
    expect(loaded?.sinceSnapshot).toBe(0);
  });

  test("loses nothing of what is being appended or merged meanwhile", async () => {
    const writer = new EpochWriter(pieceId, pianist);
    const writing = writer.write();
    for (let round = 0; round < 6; round += 1) {
      await writer.untilWritten(3);
      await Promise.all([startRoomAnew(pieceId), takeRoomSnapshot(pieceId)]);
    }
    writer.stop();
    await writing;
    const loaded = await loadRoom(pieceId, (line) => expect(line).toBeUndefined());
    expect(loaded?.epoch).toBe(7);
    const kept = loaded?.doc.getMap("comments");
    expect(writer.acknowledged.filter((id) => !kept?.has(id))).toEqual([]);
    expect(writer.acknowledged.length).toBeGreaterThanOrEqual(18);
  });

  test("begins with nothing where nothing was written, and not at all where there is no piece", async () => {
    expect(await startRoomAnew(pieceId)).toMatchObject({ epoch: 2, sequence: 1, recordCount: 0 });
    const ines = await visit(pianist);
    put(ines.doc, "comments", comment(pianist.userId, "First"));
    await ines.until(() => ines.unsaved === 0);
    expect(await startRoomAnew("nothing")).toBeNull();
  });

  test("is refused when the log is not whole, and everything stays as it is", async () => {
    const ines = await visit(pianist);
    put(ines.doc, "comments", comment(pianist.userId, "First"));
    await ines.until(() => ines.unsaved === 0);
    await database().piece.update({ where: { id: pieceId }, data: { roomSequence: 2 } });
    await expect(startRoomAnew(pieceId)).rejects.toThrow("the log ends at 1 and not at 2");
    expect((await rows()).length).toBe(1);
    expect(ines.closes).toEqual([]);
  });
});

describe("an epoch that was raised without its first entry", () => {
  test("is refused, and starts anew with what stood in the last one that has entries", async () => {
    const ines = await visit(pianist);
    put(ines.doc, "comments", comment(pianist.userId, "First"));
    await ines.until(() => ines.unsaved === 0);
    await database().piece.update({ where: { id: pieceId }, data: { roomEpoch: 2 } });
    await expect(loadRoom(pieceId)).rejects.toThrow("no first entry");
    expect(await startRoomAnew(pieceId)).toMatchObject({ epoch: 3, sequence: 2, recordCount: 1 });
    const loaded = await loadRoom(pieceId);
    expect(loaded && textsIn(loaded.doc)).toEqual(["First"]);
  });
});

/** Appends as a room server does, and opens the room again when it was started anew. */
class EpochWriter {
  readonly acknowledged: string[] = [];
  #isStopped = false;
  #watch: () => void = () => {};

  constructor(
    private readonly pieceId: string,
    private readonly guest: Guest,
  ) {}

  async write(): Promise<void> {
    while (!this.#isStopped) await this.#writeInEpoch();
  }

  untilWritten(more: number): Promise<void> {
    const enough = this.acknowledged.length + more;
    return new Promise((resolve) => {
      this.#watch = () => this.acknowledged.length >= enough && resolve();
    });
  }

  stop(): void {
    this.#isStopped = true;
  }

  async #writeInEpoch(): Promise<void> {
    const { pieceId, guest } = this;
    const { epoch, sequence } = (await loadRoom(pieceId)) ?? { epoch: 0, sequence: 0 };
    for (let after = sequence; !this.#isStopped; after += 1) {
      const doc = openRoomDoc();
      const record: CommentRecord = comment(guest.userId, `after ${after}`);
      put(doc, "comments", record);
      const update = Y.encodeStateAsUpdate(doc);
      const [answer] = await appendRoomUpdates([{ viewer: guest, pieceId, epoch, after, update }]);
      if (!answer?.ok) return;
      this.acknowledged.push(record.id);
      this.#watch();
    }
  }
}
