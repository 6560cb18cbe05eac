import path from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import * as Y from "yjs";
import { bundle } from "@/app/_commands/bundle-entries.mjs";
import { cacheFolder } from "@/app/_commands/folders.mjs";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { roomAsJson } from "@/lib/room/room-as-json";
import { database } from "@/lib/store/database";
import { readRoomLog } from "@/lib/store/room/read-room-log";
import { takeRoomSnapshot } from "@/lib/store/room/room-snapshot";
import type { LogLine } from "@/realtime/log-line";
import { loadRoom } from "@/realtime/persist";
import { KilledTakers } from "@/test/bench/killed-taker";
import { allRaces, look, raceSnapshots } from "@/test/bench/snapshot-races";
import { bringGuest, bringPiece, type Guest, openHouse, type RunningNode } from "@/test/realtime/house";
import { breath, comment, put, textsIn } from "@/test/realtime/records";
import { Visitor } from "@/test/realtime/visitor";

let house: Awaited<ReturnType<typeof openHouse>>;
let pianist: Guest;

beforeAll(async () => {
  house = await openHouse();
  pianist = await bringGuest("Ines Varga");
});

afterAll(() => house.close());

const piece = () => bringPiece({ pianist });

async function visit(node: RunningNode, pieceId: string): Promise<Visitor> {
  const visitor = new Visitor(node, pieceId, pianist);
  await visitor.until(() => visitor.provider.synced);
  return visitor;
}

async function writeComments(visitor: Visitor, count: number): Promise<void> {
  for (let index = 0; index < count; index += 1)
    put(visitor.doc, "comments", comment(pianist.userId, `c${index}`));
  await visitor.until(() => visitor.unsaved === 0);
}

/** Puts updates into a log as they come. */
async function fillLog(pieceId: string, updates: readonly Uint8Array[], epoch = 1): Promise<void> {
  const { roomSequence } = await database().piece.findUniqueOrThrow({ where: { id: pieceId } });
  await database().roomUpdate.createMany({
    data: updates.map((update, index) => ({
      ...{ pieceId, epoch, sequence: roomSequence + index + 1 },
      ...{ update: Buffer.from(update), userId: pianist.userId },
    })),
  });
  const end = roomSequence + updates.length;
  await database().piece.update({ where: { id: pieceId }, data: { roomSequence: end } });
}

/** Breaths of two pages: the first wrote the entries 1, 2 and 4, the second 3. */
function fourUpdates(): Uint8Array[] {
  const [first, second] = [openRoomDoc(), openRoomDoc()];
  const updates: Uint8Array[] = [];
  for (const doc of [first, second]) doc.on("update", (update: Uint8Array) => updates.push(update));
  for (const doc of [first, first, second, first])
    put(doc, "breaths", breath(pianist.userId, updates.length));
  return updates;
}

describe("a snapshot", () => {
  test("is made from the log, and the room is the same with it and without", async () => {
    const pieceId = await piece();
    const node = await house.startNode();
    const ines = await visit(node, pieceId);
    await writeComments(ines, 5);
    await takeRoomSnapshot(pieceId);
    put(ines.doc, "comments", comment(pianist.userId, "after the snapshot"));
    await ines.until(() => ines.unsaved === 0);
    const log = await readRoomLog(pieceId);
    expect([log?.snapshot?.sequence, log?.updates.map(({ sequence }) => sequence)]).toEqual([5, [6]]);
    const loaded = await loadRoom(pieceId);
    expect(loaded && roomAsJson(loaded.doc)).toBe(roomAsJson(ines.doc));
    expect(loaded?.sinceSnapshot).toBe(1);
    expect(loaded?.owners.get(ines.doc.clientID)).toBe(pianist.userId);
    expect(await database().roomUpdate.count({ where: { pieceId } })).toBe(6);
    ines.leave();
  });

  test("is taken when a room that grew is left", async () => {
    const pieceId = await piece();
    const node = await house.startNode({ idleRoomMs: 1, messageBurst: 1_000 });
    const ines = await visit(node, pieceId);
    await writeComments(ines, 120);
    ines.leave();
    await node.untilLogged(({ what }) => what === "snapshot-taken");
    expect((await readRoomLog(pieceId))?.snapshot?.sequence).toBe(120);
    const again = new Visitor(node, pieceId, pianist);
    await again.until(() => textsIn(again.doc).length === 120);
    again.leave();
  });

  test("is taken while a room stays open, once for what it grew by", async () => {
    const pieceId = await piece();
    const node = await house.startNode({ recheckMs: 20, messageBurst: 2_000 });
    const taken = () => node.log.filter(({ what }) => what === "snapshot-taken").length;
    const ines = await visit(node, pieceId);
    await writeComments(ines, 320);
    await node.untilLogged(({ what }) => what === "snapshot-taken");
    expect((await readRoomLog(pieceId))?.snapshot?.sequence).toBeGreaterThanOrEqual(300);
    const before = taken();
    await writeComments(ines, 320);
    await node.untilLogged(() => taken() === before + 1);
    expect((await readRoomLog(pieceId))?.snapshot?.sequence).toBeGreaterThanOrEqual(600);
    expect(ines.closes).toEqual([]);
    ines.leave();
  });
});

describe("a snapshot that does not fit its log", () => {
  const cases: { misfit: string; sequence: number; state: (updates: Uint8Array[]) => Uint8Array }[] = [
    { misfit: "unreadable", sequence: 3, state: () => Uint8Array.of(7, 255, 255, 1, 2, 3) },
    { misfit: "unreadable", sequence: 3, state: () => new Uint8Array() },
    { misfit: "lacks-its-last-entry", sequence: 3, state: () => Uint8Array.of(0, 0) },
    { misfit: "lacks-its-last-entry", sequence: 3, state: (all) => Y.mergeUpdates(all.slice(0, 2)) },
    // Entries 1 and 3 only: entry 4 rests on entry 2.
    { misfit: "has-a-gap", sequence: 3, state: (all) => Y.mergeUpdates(all.filter((_, at) => at % 2 === 0)) },
    { misfit: "ahead-of-the-log", sequence: 5, state: (all) => Y.mergeUpdates(all) },
  ];

  test.each(cases)(
    "($misfit, $sequence) is passed over, and made anew",
    async ({ misfit, sequence, state }) => {
      const pieceId = await piece();
      const updates = fourUpdates();
      await fillLog(pieceId, updates);
      const bad = Buffer.from(state(updates));
      await database().roomSnapshot.create({ data: { pieceId, epoch: 1, sequence, state: bad } });
      const said: LogLine[] = [];
      const loaded = await loadRoom(pieceId, (line) => said.push(line));
      expect(said).toEqual([{ what: "snapshot-passed-over", pieceId, detail: misfit }]);
      expect(loaded?.doc.getMap("breaths").size).toBe(4);
      const node = await house.startNode();
      const ines = await visit(node, pieceId);
      expect(ines.doc.getMap("breaths").size).toBe(4);
      await node.untilLogged(({ what }) => what === "snapshot-taken");
      expect((await look(pieceId, [])).faults).toEqual([]);
      ines.leave();
    },
  );

  test("does not help a log that is not whole: that room is refused", async () => {
    const pieceId = await piece();
    await fillLog(
      pieceId,
      fourUpdates().filter((_, at) => at !== 1),
    );
    await expect(loadRoom(pieceId, () => {})).rejects.toThrow("gap");
    const node = await house.startNode();
    const ines = new Visitor(node, pieceId, pianist);
    await ines.until(() => ines.closes.includes(4503));
    expect(ines.doc.getMap("breaths").size).toBe(0);
    ines.leave();
  });
});

describe("snapshots that crash while the room is written in", () => {
  let takers: KilledTakers;

  beforeAll(async () => {
    const folder = path.join(cacheFolder, "killed-taker");
    await bundle(["test/bench/room-snapshots.bench.ts"], folder);
    takers = new KilledTakers(path.join(folder, "room-snapshots.bench.mjs"));
  });

  afterAll(() => takers.close());

  test.each(allRaces)("$step: $crash", async (race) => {
    const room = { pieceId: await piece(), userId: pianist.userId };
    const rounds = race.crash === "process killed" ? 1 : 3;
    for (let round = 0; round < rounds; round += 1) {
      const { appended, lost, faults } = await raceSnapshots(room, race, takers.take);
      expect({ lost, faults }).toEqual({ lost: 0, faults: [] });
      expect(appended).toBeGreaterThanOrEqual(4);
    }
  });

  test("what these look for is found when it is there", async () => {
    const pieceId = await piece();
    await fillLog(pieceId, fourUpdates());
    await takeRoomSnapshot(pieceId);
    expect(await look(pieceId, ["never-written"])).toMatchObject({ lost: 1, faults: [] });
    // Claims an entry that it does not have.
    await database().roomSnapshot.updateMany({ where: { pieceId }, data: { state: Buffer.of(0, 0) } });
    expect((await look(pieceId, [])).faults).toEqual([
      "snapshot-passed-over: lacks-its-last-entry",
      "the snapshot is not what its rows make",
    ]);
  });
});
