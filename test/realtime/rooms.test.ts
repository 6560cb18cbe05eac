import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import * as Y from "yjs";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { roomAsJson } from "@/lib/room/room-as-json";
import { database } from "@/lib/store/database";
import { readRoomLog } from "@/lib/store/room/read-room-log";
import { startRoomAnew } from "@/lib/store/room/start-room-anew";
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
  node = await house.startNode();
  pianist = await bringGuest("Ines Varga");
  soloist = await bringGuest("Tobias Lenk");
});

beforeEach(async () => {
  pieceId = await bringPiece({ pianist, soloist });
});

afterEach(() => {
  for (const visitor of visitors.splice(0)) visitor.leave();
});

afterAll(async () => {
  await house.close();
});

function visit(guest: Guest, at = node, doc?: Y.Doc): Visitor {
  const visitor = new Visitor(at, pieceId, guest, doc);
  visitors.push(visitor);
  return visitor;
}

async function logOf(piece = pieceId) {
  const log = await readRoomLog(piece);
  if (!log) throw new RangeError(`no piece ${piece}`);
  return log;
}

describe("two people in a room", () => {
  test("see what the other writes", async () => {
    const [ines, tobias] = [visit(pianist), visit(soloist)];
    await Promise.all([ines.until(() => ines.provider.synced), tobias.until(() => tobias.provider.synced)]);
    put(ines.doc, "comments", comment(pianist.userId, "Take the octaves here"));
    put(tobias.doc, "breaths", breath(soloist.userId, 4));
    await ines.until(() => ines.doc.getMap("breaths").size === 1 && ines.unsaved === 0);
    await tobias.until(() => textsIn(tobias.doc).length === 1 && tobias.unsaved === 0);
    expect(roomAsJson(ines.doc)).toBe(roomAsJson(tobias.doc));
    expect(textsIn(tobias.doc)).toEqual(["Take the octaves here"]);
  });

  test("an update that is acknowledged stands in the log at that sequence", async () => {
    const ines = visit(pianist);
    await ines.until(() => ines.provider.synced);
    put(ines.doc, "comments", comment(pianist.userId, "First"));
    put(ines.doc, "comments", comment(pianist.userId, "Second"));
    await ines.until(() => ines.unsaved === 0);
    const log = await logOf();
    const heard = ines.acknowledgements.map(({ sequence }) => sequence).filter((sequence) => sequence > 0);
    expect(heard).toEqual([1, 2]);
    expect(log.updates.map(({ sequence, userId }) => [sequence, userId])).toEqual([
      [1, pianist.userId],
      [2, pianist.userId],
    ]);
    const replayed = openRoomDoc();
    for (const { update } of log.updates) Y.applyUpdate(replayed, update);
    expect(roomAsJson(replayed)).toBe(roomAsJson(ines.doc));
  });

  test("find everything again after the server was stopped and started", async () => {
    const [ines, tobias] = [visit(pianist), visit(soloist)];
    await Promise.all([ines.until(() => ines.provider.synced), tobias.until(() => tobias.provider.synced)]);
    put(ines.doc, "comments", comment(pianist.userId, "Before the stop"));
    await tobias.until(() => textsIn(tobias.doc).length === 1);
    const port = Number(new URL(node.url).port);
    await node.stop();
    await ines.until(() => !ines.provider.wsconnected);
    put(ines.doc, "comments", comment(pianist.userId, "While it was away"));
    expect(ines.unsaved).toBe(1);
    node = await house.startNode({}, port);
    await tobias.until(() => textsIn(tobias.doc).length === 2);
    await ines.until(() => ines.unsaved === 0);
    const late = visit(soloist);
    await late.until(() => textsIn(late.doc).length === 2);
    expect(roomAsJson(late.doc)).toBe(roomAsJson(ines.doc));
  });

  test("merge what both wrote while neither could reach the server", async () => {
    const [ines, tobias] = [visit(pianist), visit(soloist)];
    await Promise.all([ines.until(() => ines.provider.synced), tobias.until(() => tobias.provider.synced)]);
    for (const visitor of [ines, tobias]) visitor.provider.disconnect();
    put(ines.doc, "comments", comment(pianist.userId, "From the pianist"));
    put(tobias.doc, "comments", comment(soloist.userId, "From the soloist"));
    for (const visitor of [ines, tobias]) visitor.provider.connect();
    await ines.until(() => textsIn(ines.doc).length === 2 && ines.unsaved === 0);
    await tobias.until(() => textsIn(tobias.doc).length === 2 && tobias.unsaved === 0);
    expect(roomAsJson(ines.doc)).toBe(roomAsJson(tobias.doc));
    expect((await logOf()).sequence).toBe(2);
  });

  test("hear when something of the piece outside the room changed", async () => {
    const [ines, tobias] = [visit(pianist), visit(soloist)];
    await Promise.all([ines, tobias].map((visitor) => visitor.until(() => visitor.welcomes.length > 0)));
    await database()
      .$executeRaw`SELECT pg_notify('piece_changed', ${JSON.stringify({ pieceId, what: "proposals" })})`;
    await ines.until(() => ines.pieceChanges.includes("proposals"));
    await tobias.until(() => tobias.pieceChanges.includes("proposals"));
  });

  test("see who is here and where they look, under the name the server knows", async () => {
    const [ines, tobias] = [visit(pianist), visit(soloist)];
    await Promise.all([ines.until(() => ines.provider.synced), tobias.until(() => tobias.provider.synced)]);
    tobias.provider.awareness.setLocalState({
      member: { userId: pianist.userId, name: "Ines Varga", role: "pianist" },
      view: { barIndex: 41, editing: null },
    });
    const seen = () => ines.provider.awareness.getStates().get(tobias.doc.clientID);
    await ines.until(() => (seen()?.view as { barIndex: number } | undefined)?.barIndex === 41);
    expect(seen()).toEqual({
      member: { userId: soloist.userId, name: "Tobias Lenk", role: "soloist" },
      view: { barIndex: 41, editing: null },
    });
    tobias.leave();
    await ines.until(() => seen() === undefined);
  });
});

describe("two nodes on one database", () => {
  test("carry the same room", async () => {
    const second = await house.startNode();
    const [ines, tobias] = [visit(pianist, node), visit(soloist, second)];
    await Promise.all([ines.until(() => ines.provider.synced), tobias.until(() => tobias.provider.synced)]);
    for (let index = 0; index < 10; index += 1) {
      put(ines.doc, "comments", comment(pianist.userId, `p${index}`));
      put(tobias.doc, "comments", comment(soloist.userId, `s${index}`));
    }
    await Promise.all(
      [ines, tobias].map((visitor) =>
        visitor.until(() => textsIn(visitor.doc).length === 20 && visitor.unsaved === 0),
      ),
    );
    expect(roomAsJson(ines.doc)).toBe(roomAsJson(tobias.doc));
    expect((await logOf()).updates.map(({ sequence }) => sequence)).toEqual(
      Array.from({ length: 20 }, (_, index) => index + 1),
    );
  });

  test("a node that heard nothing finds what it missed in the log", async () => {
    const deaf = await house.startNode({ recheckMs: 100 });
    const [ines, tobias] = [visit(pianist, node), visit(soloist, deaf)];
    await Promise.all([ines.until(() => ines.provider.synced), tobias.until(() => tobias.provider.synced)]);
    // Appended as by a process that was killed before anybody heard of it.
    const doc = openRoomDoc();
    put(doc, "comments", comment(pianist.userId, "Never announced"));
    const update = Buffer.from(Y.encodeStateAsUpdate(doc));
    await database().$transaction([
      database().piece.update({ where: { id: pieceId }, data: { roomSequence: 1 } }),
      database().roomUpdate.create({
        data: { pieceId, sequence: 1, epoch: 1, update, userId: pianist.userId },
      }),
    ]);
    await tobias.until(() => textsIn(tobias.doc).includes("Never announced"));
    put(ines.doc, "comments", comment(pianist.userId, "Judged against the whole log"));
    await ines.until(() => textsIn(ines.doc).length === 2 && ines.unsaved === 0);
    expect((await logOf()).sequence).toBe(2);
  });
});

describe("a node that lost its ear", () => {
  test("listens again and takes everything for changed", async () => {
    const ines = visit(pianist);
    await ines.until(() => ines.provider.synced);
    await database().$executeRaw`
      SELECT pg_terminate_backend(pid) FROM pg_stat_activity
      WHERE application_name = 'colla-parte rooms' AND datname = current_database()`;
    await ines.until(() => ines.pieceChanges.includes("everything"));
    expect(ines.closes).toEqual([]);
    await database()
      .$executeRaw`SELECT pg_notify('piece_changed', ${JSON.stringify({ pieceId, what: "members" })})`;
    await ines.until(() => ines.pieceChanges.includes("members"));
  });
});

describe("a room that starts anew", () => {
  test("lets nobody in with a copy of the earlier one", async () => {
    const ines = visit(pianist);
    await ines.until(() => ines.welcomes.length === 1);
    expect(ines.welcomes[0]?.epoch).toBe(1);
    ines.provider.params = { epoch: "1" };
    await startRoomAnew(pieceId);
    await ines.until(() => ines.closes.includes(4409));
    put(ines.doc, "comments", comment(pianist.userId, "Into a room that is gone"));
    ines.provider.connect();
    await ines.until(() => ines.closes.filter((code) => code === 4409).length === 2);
    const fresh = visit(pianist);
    await fresh.until(() => fresh.provider.synced);
    expect(fresh.welcomes[0]?.epoch).toBe(2);
    expect(textsIn(fresh.doc)).toEqual([]);
  });
});
