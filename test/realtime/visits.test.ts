import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { database } from "@/lib/store/database";
import { countNewComments } from "@/lib/store/room/count-new-comments";
import { bringGuest, bringPiece, type Guest, openHouse } from "@/test/realtime/house";
import { comment, put } from "@/test/realtime/records";
import { Visitor } from "@/test/realtime/visitor";

let house: Awaited<ReturnType<typeof openHouse>>;
let pianist: Guest;
let soloist: Guest;
let pieceId: string;

beforeAll(async () => {
  house = await openHouse();
});

beforeEach(async () => {
  pianist = await bringGuest("Nerys Quill");
  soloist = await bringGuest("Matthis Orban");
  pieceId = await bringPiece({ pianist, soloist });
});

afterAll(() => house.close());

const visits = async () =>
  new Map(
    (await database().roomVisit.findMany({ where: { pieceId } })).map(({ userId, sequence }) => [
      userId,
      sequence,
    ]),
  );

test("how far a person saw a room is noted when their last page leaves it, and when the server ends", async () => {
  const node = await house.startNode();
  const enter = async (guest: Guest) => {
    const visitor = new Visitor(node, pieceId, guest);
    await visitor.until(() => visitor.provider.synced);
    return visitor;
  };
  const write = async (visitor: Visitor, text: string) => {
    put(visitor.doc, "comments", comment(visitor.guest.userId, text));
    await visitor.until(() => visitor.unsaved === 0);
  };
  const [desk, phone, matthis] = [await enter(pianist), await enter(pianist), await enter(soloist)];
  const seesPhone = () => matthis.provider.awareness.getStates().has(phone.doc.clientID);
  await matthis.until(seesPhone);
  phone.leave();
  await matthis.until(() => !seesPhone());
  await write(matthis, "One");
  expect(await visits()).toEqual(new Map());
  // The gate notes in the log which comments an entry brought; one's own are none.
  expect(await countNewComments(pianist)).toEqual(new Map([[pieceId, 1]]));
  expect(await countNewComments(soloist)).toEqual(new Map());
  const seesDesk = () => matthis.provider.awareness.getStates().has(desk.doc.clientID);
  await matthis.until(seesDesk);
  desk.leave();
  await matthis.until(() => !seesDesk());
  await write(matthis, "Two");
  await node.stop();
  expect(await visits()).toEqual(
    new Map([
      [pianist.userId, 1],
      [soloist.userId, 2],
    ]),
  );
  expect(await countNewComments(pianist)).toEqual(new Map([[pieceId, 1]]));
  matthis.leave();
});

test("a visit that cannot be noted costs nothing but the note", async () => {
  const node = await house.startNode();
  const matthis = new Visitor(node, pieceId, soloist);
  await matthis.until(() => matthis.provider.synced);
  await database().$executeRaw`ALTER TABLE "RoomVisit" RENAME TO "RoomVisitAway"`;
  try {
    matthis.leave();
    await node.untilLogged(({ what }) => what === "visit-not-noted");
  } finally {
    await database().$executeRaw`ALTER TABLE "RoomVisitAway" RENAME TO "RoomVisit"`;
  }
  const again = new Visitor(node, pieceId, soloist);
  await again.until(() => again.provider.synced);
  again.leave();
});
