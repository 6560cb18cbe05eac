import { beforeEach, describe, expect, test } from "vitest";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { writeRecord } from "@/lib/room/write-record";
import { database } from "@/lib/store/database";
import { appendRoomUpdate } from "@/lib/store/room/append-room-update";
import { readRoomLog, readRoomUpdatesAfter, readWholeRoomLog } from "@/lib/store/room/read-room-log";
import { type SnapshotStep, takeRoomSnapshot } from "@/lib/store/room/room-snapshot";
import { bringDuo, type Duo, openStoreForFile, valued } from "./duo";

openStoreForFile();
let duo: Duo;
let pieceId: string;
beforeEach(async () => {
  duo = await bringDuo();
  pieceId = duo.pieceId;
});

/** Appends a breath that nothing else rests on. */
async function append(): Promise<void> {
  const doc = openRoomDoc();
  const updates: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => updates.push(update));
  const id = crypto.randomUUID();
  const { userId } = duo.pianist;
  const member = { userId, name: "Nerys Quill", role: "pianist" } as const;
  const record = { id, authorId: userId, at: { barIndex: 1, offset: "0" }, deletedAt: null };
  writeRecord(doc, "breaths", record, member);
  const [update] = updates;
  if (!update) throw new RangeError("nothing was written");
  valued(await appendRoomUpdate(duo.pianist, { pieceId, epoch: 1, update, node: "test" }));
}

async function appendMany(count: number): Promise<void> {
  for (let index = 0; index < count; index += 1) await append();
}

const stored = () => database().roomSnapshot.findMany({ where: { pieceId } });

describe("a snapshot", () => {
  test("stands for the rows up to its sequence, and the log is read from there", async () => {
    await appendMany(3);
    expect(await takeRoomSnapshot(pieceId)).toEqual({ kind: "taken", sequence: 3 });
    await appendMany(2);
    const log = await readRoomLog(pieceId);
    expect([log?.snapshot?.sequence, log?.snapshot?.last?.sequence]).toEqual([3, 3]);
    expect(log?.updates.map(({ sequence }) => sequence)).toEqual([4, 5]);
    const all = [1, 2, 3, 4, 5];
    expect((await readWholeRoomLog(pieceId))?.updates.map(({ sequence }) => sequence)).toEqual(all);
    expect((await readRoomUpdatesAfter(pieceId, 1, 0)).map(({ sequence }) => sequence)).toEqual(all);
  });

  test("is taken when the log has grown enough, or when the last is of no use", async () => {
    expect(await takeRoomSnapshot(pieceId)).toEqual({ kind: "recent", sequence: 0 });
    await appendMany(2);
    expect(await takeRoomSnapshot(pieceId, { least: 3 })).toEqual({ kind: "recent", sequence: 0 });
    expect(await takeRoomSnapshot(pieceId, { least: 2 })).toEqual({ kind: "taken", sequence: 2 });
    expect(await takeRoomSnapshot(pieceId)).toEqual({ kind: "recent", sequence: 2 });
    expect(await takeRoomSnapshot(pieceId, { isRenewal: true })).toEqual({ kind: "taken", sequence: 2 });
  });

  test("replaces one that claims more than the log has", async () => {
    await appendMany(2);
    await database().roomSnapshot.create({
      data: { pieceId, epoch: 1, sequence: 9, state: Buffer.of(0, 0) },
    });
    expect(await takeRoomSnapshot(pieceId, { isRenewal: true })).toEqual({ kind: "taken", sequence: 2 });
    expect((await stored()).map(({ sequence }) => sequence)).toEqual([2]);
  });

  test("takes its steps in order; another meanwhile is told so, and a write waits for neither", async () => {
    await appendMany(2);
    const steps: SnapshotStep[] = [];
    const outcome = await takeRoomSnapshot(pieceId, {
      onStep: async (step) => {
        steps.push(step);
        if (step === "committed") return;
        expect(await takeRoomSnapshot(pieceId)).toEqual({ kind: "busy" });
        await append();
      },
    });
    expect(steps).toEqual(["locked", "read", "merged", "written", "committed"]);
    // One was appended after the lock and before the rows were read.
    expect(outcome).toEqual({ kind: "taken", sequence: 3 });
    expect((await readRoomLog(pieceId))?.updates.map(({ sequence }) => sequence)).toEqual([4, 5, 6]);
  });

  test("is read from a log of several pages", async () => {
    const { userId } = duo.pianist;
    await appendMany(1);
    const [first] = await readRoomUpdatesAfter(pieceId, 1, 0);
    if (!first) throw new RangeError("nothing was appended");
    const { update } = first;
    const rows = Array.from({ length: 2_300 }, (_, index) => ({ sequence: index + 2, update }));
    await database().roomUpdate.createMany({
      data: rows.map((row) => ({ ...row, pieceId, epoch: 1, userId })),
    });
    await database().piece.update({ where: { id: pieceId }, data: { roomSequence: 2_301 } });
    expect(await takeRoomSnapshot(pieceId)).toEqual({ kind: "taken", sequence: 2_301 });
  });

  test.each([
    { what: "a row is missing in it", rows: [1, 3], end: 3, reason: "update 2 is missing" },
    { what: "its first row is missing", rows: [2, 3], end: 3, reason: "update 1 is missing" },
    { what: "its last row is missing", rows: [1, 2], end: 3, reason: "ends at 2 and not at 3" },
  ])("is not taken of a log when $what", async ({ rows, end, reason }) => {
    const { userId } = duo.pianist;
    await database().roomUpdate.createMany({
      data: rows.map((sequence) => ({ pieceId, epoch: 1, sequence, userId, update: Buffer.of(0, 0) })),
    });
    await database().piece.update({ where: { id: pieceId }, data: { roomSequence: end } });
    await expect(takeRoomSnapshot(pieceId)).rejects.toThrow(reason);
    expect(await stored()).toEqual([]);
  });

  test("of a piece that is not there is none", async () =>
    expect(await takeRoomSnapshot("nothing")).toEqual({ kind: "no-such-piece" }));
});
