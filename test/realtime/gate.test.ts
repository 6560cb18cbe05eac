import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import * as Y from "yjs";
import { database } from "@/lib/store/database";
import { notify } from "@/lib/store/notify";
import { readRoomLog } from "@/lib/store/room/read-room-log";
import { writeUpdate } from "@/realtime/protocol";
import { bringGuest, bringPiece, type Guest, openHouse, type RunningNode } from "@/test/realtime/house";
import { breath, comment, put, textsIn } from "@/test/realtime/records";
import { Visitor } from "@/test/realtime/visitor";

let house: Awaited<ReturnType<typeof openHouse>>;
let node: RunningNode;
let pianist: Guest;
let soloist: Guest;
let coach: Guest;
let reader: Guest;
let pieceId: string;
const visitors: Visitor[] = [];

beforeAll(async () => {
  house = await openHouse();
  node = await house.startNode();
  pianist = await bringGuest("Ines Varga");
  soloist = await bringGuest("Tobias Lenk");
  coach = await bringGuest("Mara Quint");
  reader = await bringGuest("Page Turner");
});

beforeEach(async () => {
  pieceId = await bringPiece({ pianist, soloist, coach, reader });
});

afterEach(() => {
  for (const visitor of visitors.splice(0)) visitor.leave();
});

afterAll(() => house.close());

function visit(guest: Guest, doc?: Y.Doc): Visitor {
  const visitor = new Visitor(node, pieceId, guest, doc);
  visitors.push(visitor);
  return visitor;
}

async function enter(guest: Guest): Promise<Visitor> {
  const visitor = visit(guest);
  await visitor.until(() => visitor.provider.synced);
  return visitor;
}

async function storedUpdates(): Promise<number> {
  return (await readRoomLog(pieceId))?.updates.length ?? Number.NaN;
}

/** What a tampered or outdated client could write, and what it is told. */
const forgeries: readonly [string, () => Guest, (doc: Y.Doc) => void, string][] = [
  [
    "in another's name",
    () => soloist,
    (doc) => put(doc, "comments", comment(pianist.userId, "x")),
    "not-in-your-name",
  ],
  [
    "a reader's comment",
    () => reader,
    (doc) => put(doc, "comments", comment(reader.userId, "x")),
    "reads-only",
  ],
  ["a coach's breath", () => coach, (doc) => put(doc, "breaths", breath(coach.userId, 3)), "role-may-not"],
  [
    "resolved by another",
    () => coach,
    (doc) => {
      const record = {
        commentId: "c1",
        byId: pianist.userId,
        at: "2026-11-25T08:00:00.000Z",
        isResolved: true,
      };
      doc.getMap("resolutions").set("c1", record);
    },
    "not-in-your-name",
  ],
  [
    "a comment of 4,001 characters",
    () => pianist,
    (doc) => put(doc, "comments", comment(pianist.userId, "o".repeat(4_001))),
    "invalid-record",
  ],
  ["another map", () => pianist, (doc) => doc.getMap("editions").set("1", { id: "1" }), "unknown-content"],
  ["a list", () => pianist, (doc) => doc.getArray("comments").push(["x"]), "unknown-content"],
  [
    "a record without its fields",
    () => pianist,
    (doc) => put(doc, "comments", { id: "c1" }),
    "invalid-record",
  ],
];

describe("what a client may not write", () => {
  test.each(forgeries)("%s, as an update", async (_what, guest, forge, kind) => {
    const visitor = visit(guest(), new Y.Doc());
    await visitor.until(() => visitor.provider.synced);
    forge(visitor.doc);
    await visitor.until(() => visitor.refusals.length > 0 && visitor.closes.length > 0);
    expect(visitor.refusals.map((refusal) => refusal.kind)).toEqual([kind]);
    expect(visitor.closes).toEqual([4422]);
    expect(visitor.unsaved).toBeGreaterThan(0);
    expect(await storedUpdates()).toBe(0);
  });

  test.each(forgeries)("%s, in a copy brought along (sync step 2)", async (_what, guest, forge, kind) => {
    const doc = new Y.Doc();
    forge(doc);
    const visitor = visit(guest(), doc);
    await visitor.until(() => visitor.refusals.length > 0);
    expect(visitor.refusals.map((refusal) => refusal.kind)).toEqual([kind]);
    expect(await storedUpdates()).toBe(0);
  });

  test("what another wrote", async () => {
    const ines = await enter(pianist);
    const written = comment(pianist.userId, "Mine");
    put(ines.doc, "comments", written);
    const tobias = await enter(soloist);
    await tobias.until(() => textsIn(tobias.doc).length === 1);
    put(tobias.doc, "comments", { ...written, text: "His" } as typeof written);
    await tobias.until(() => tobias.refusals.length > 0);
    expect(tobias.refusals[0]).toMatchObject({
      kind: "not-your-record",
      place: { map: "comments", key: written.id },
    });
    expect(textsIn(ines.doc)).toEqual(["Mine"]);
    expect(await storedUpdates()).toBe(1);
  });

  test("a record away", async () => {
    const ines = await enter(pianist);
    const written = comment(pianist.userId, "To be kept");
    put(ines.doc, "comments", written);
    await ines.until(() => ines.unsaved === 0);
    ines.doc.getMap("comments").delete(written.id);
    await ines.until(() => ines.refusals.length > 0);
    expect(ines.refusals[0]?.kind).toBe("record-removed");
    const tobias = await enter(soloist);
    expect(textsIn(tobias.doc)).toEqual(["To be kept"]);
  });

  test("under the number of another's open page", async () => {
    const ines = await enter(pianist);
    const doc = new Y.Doc();
    doc.clientID = ines.doc.clientID;
    put(doc, "comments", comment(soloist.userId, "In her place"));
    const tobias = visit(soloist, doc);
    await tobias.until(() => tobias.refusals.length > 0);
    expect(tobias.refusals[0]?.kind).toBe("not-your-page");
    put(ines.doc, "comments", comment(pianist.userId, "Not lost"));
    await ines.until(() => ines.unsaved === 0);
    const late = await enter(coach);
    expect(textsIn(late.doc)).toEqual(["Not lost"]);
  });

  test("under the number of a page that another once had open", async () => {
    const ines = await enter(pianist);
    put(ines.doc, "comments", comment(pianist.userId, "First"));
    await ines.until(() => ines.unsaved === 0);
    ines.leave();
    const copy = new Y.Doc();
    Y.applyUpdate(copy, Y.encodeStateAsUpdate(ines.doc));
    copy.clientID = ines.doc.clientID;
    put(copy, "comments", comment(soloist.userId, "In her place"));
    const restarted = await house.startNode();
    const tobias = new Visitor(restarted, pieceId, soloist, copy);
    visitors.push(tobias);
    await tobias.until(() => tobias.refusals.length > 0);
    expect(tobias.refusals[0]?.kind).toBe("not-your-page");
  });

  test("an update that holds no record", async () => {
    const ines = await enter(pianist);
    // One client, one struct of three deleted writes without a place (info 0), no deletions.
    const update = new Uint8Array([1, 1, 5, 0, 0, 3, 0]);
    ines.provider.ws?.send(new Uint8Array(writeUpdate(update)));
    await ines.until(() => ines.refusals.length > 0);
    expect(ines.refusals[0]?.kind).toBe("unknown-content");
    expect(await storedUpdates()).toBe(0);
  });

  test("a reader is let in and gets nothing of what the others write to each other", async () => {
    const [ines, early] = await Promise.all([enter(pianist), enter(reader)]);
    put(ines.doc, "comments", comment(pianist.userId, "Between the two of us"));
    await ines.until(() => ines.unsaved === 0);
    const late = await enter(reader);
    // A later message of the same room arrives after whatever was sent before it.
    await database().$transaction((tx) => notify(tx, "piece_changed", { pieceId, what: "editions" }));
    for (const turner of [early, late]) {
      await turner.until(() => turner.pieceChanges.includes("editions"));
      expect(textsIn(turner.doc)).toEqual([]);
      expect(turner.refusals).toEqual([]);
      expect(turner.closes).toEqual([]);
    }
  });
});

describe("what cannot be stored or loaded", () => {
  test("a write that the database refuses is neither acknowledged nor shown, and arrives when it works again", async () => {
    const [ines, tobias] = await Promise.all([enter(pianist), enter(soloist)]);
    await database().$executeRawUnsafe('ALTER TABLE "RoomUpdate" RENAME TO "RoomUpdateAway"');
    put(ines.doc, "comments", comment(pianist.userId, "Held up"));
    await ines.until(() => ines.closes.includes(4503));
    expect(ines.unsaved).toBe(1);
    expect(textsIn(tobias.doc)).toEqual([]);
    await database().$executeRawUnsafe('ALTER TABLE "RoomUpdateAway" RENAME TO "RoomUpdate"');
    await tobias.until(() => textsIn(tobias.doc).length === 1);
    await ines.until(() => ines.unsaved === 0);
    expect(await storedUpdates()).toBe(1);
  });

  test("a room whose log is not whole is refused, not started empty", async () => {
    const ines = await enter(pianist);
    for (const text of ["one", "two", "three"]) put(ines.doc, "comments", comment(pianist.userId, text));
    await ines.until(() => ines.unsaved === 0);
    const second = await house.startNode();
    await database().piece.update({ where: { id: pieceId }, data: { roomSequence: 4 } });
    const tobias = new Visitor(second, pieceId, soloist);
    visitors.push(tobias);
    await tobias.until(() => tobias.closes.length > 0);
    expect(tobias.closes[0]).toBe(4503);
    expect(tobias.provider.synced).toBe(false);
  });
});
