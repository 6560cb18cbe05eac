import { afterAll, beforeAll, expect, test } from "vitest";
import { bundleServer } from "@/app/_commands/build-product.mjs";
import { database } from "@/lib/store/database";
import { readRoomLog } from "@/lib/store/room/read-room-log";
import { bringGuest, bringPiece, type Guest, openHouse, publicUrl } from "@/test/realtime/house";
import { comment, put, textsIn } from "@/test/realtime/records";
import { Visitor } from "@/test/realtime/visitor";
import { type RunningProduct, startRoomsApart } from "@/test/setup/start-product";

// The bundled program, twice, as two processes that know of each other through the database only.

let house: Awaited<ReturnType<typeof openHouse>>;
let rooms: [one: RunningProduct, two: RunningProduct];
let pianist: Guest;
let soloist: Guest;
let pieceId: string;

const start = (port?: number) =>
  startRoomsApart({ databaseUrl: house.databaseUrl, port, environment: { NEXTAUTH_URL: publicUrl } });

beforeAll(async () => {
  house = await openHouse();
  await bundleServer();
  rooms = [await start(), await start()];
  pianist = await bringGuest("Nerys Quill");
  soloist = await bringGuest("Matthis Orban");
  pieceId = await bringPiece({ pianist, soloist });
});

afterAll(async () => {
  await Promise.all((rooms ?? []).map((running) => running.stop()));
  await house.close();
});

async function enter(guest: Guest, { port }: RunningProduct): Promise<Visitor> {
  const visitor = new Visitor({ url: `ws://127.0.0.1:${port}/rooms` }, pieceId, guest);
  await visitor.until(() => visitor.provider.synced);
  return visitor;
}

test("writings and people cross from one to the other, and nothing is lost when one ends", async () => {
  const [nerys, matthis] = [await enter(pianist, rooms[0]), await enter(soloist, rooms[1])];
  nerys.provider.awareness.setLocalState({ view: { barIndex: 5, editing: null } });
  const seen = () => matthis.provider.awareness.getStates().get(nerys.doc.clientID);
  await matthis.until(() => (seen()?.view as { barIndex: number } | undefined)?.barIndex === 5);
  for (let index = 0; index < 20; index += 1) {
    put(nerys.doc, "comments", comment(pianist.userId, `p${index}`));
    put(matthis.doc, "comments", comment(soloist.userId, `s${index}`));
  }
  for (const visitor of [nerys, matthis])
    await visitor.until(() => textsIn(visitor.doc).length === 40 && visitor.unsaved === 0);
  const { port } = rooms[0];
  // Whether this is stored before the end or brought again after it, it is not lost.
  put(nerys.doc, "comments", comment(pianist.userId, "While it ends"));
  await rooms[0].stop();
  await matthis.until(() => seen() === undefined);
  await nerys.until(() => nerys.closes.length > 0);
  rooms[0] = await start(port);
  await matthis.until(() => seen() !== undefined);
  put(matthis.doc, "comments", comment(soloist.userId, "Welcome back"));
  await nerys.until(() => textsIn(nerys.doc).includes("Welcome back"));
  await matthis.until(() => textsIn(matthis.doc).includes("While it ends"));
  expect((await readRoomLog(pieceId))?.sequence).toBe(42);
  const [visit] = await database().roomVisit.findMany({ where: { pieceId, userId: pianist.userId } });
  expect(visit?.sequence).toBeGreaterThanOrEqual(40);
  for (const visitor of [nerys, matthis]) visitor.leave();
});
