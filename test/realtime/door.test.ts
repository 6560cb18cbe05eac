import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { endAllSessions } from "@/lib/store/auth/session";
import { database } from "@/lib/store/database";
import { notify } from "@/lib/store/notify";
import { readRoomLog } from "@/lib/store/room/read-room-log";
import {
  bringGuest,
  bringPiece,
  type Guest,
  openHouse,
  publicUrl,
  type RunningNode,
} from "@/test/realtime/house";
import { comment, put } from "@/test/realtime/records";
import { knock, Visitor } from "@/test/realtime/visitor";

let house: Awaited<ReturnType<typeof openHouse>>;
let node: RunningNode;
let pianist: Guest;
let soloist: Guest;
let stranger: Guest;
let pieceId: string;
const visitors: Visitor[] = [];

beforeAll(async () => {
  house = await openHouse();
  node = await house.startNode();
});

beforeEach(async () => {
  pianist = await bringGuest("Ines Varga");
  soloist = await bringGuest("Tobias Lenk");
  stranger = await bringGuest("Nobody Here");
  pieceId = await bringPiece({ pianist, soloist });
});

afterEach(() => {
  for (const visitor of visitors.splice(0)) visitor.leave();
});

afterAll(() => house.close());

async function enter(guest: Guest): Promise<Visitor> {
  const visitor = new Visitor(node, pieceId, guest);
  visitors.push(visitor);
  await visitor.until(() => visitor.provider.synced);
  return visitor;
}

describe("at the door", () => {
  const origin = publicUrl;

  test("a member with a session comes in", async () => {
    expect(await knock(`${node.url}/${pieceId}`, { cookie: pianist.cookie, origin })).toBe(101);
  });

  test.each([
    ["without a cookie", () => ({ origin }), 401],
    ["with a session that never was", () => ({ origin, cookie: "next-auth.session-token=guess" }), 401],
    ["under another cookie's name", () => ({ origin, cookie: `session=${pianist.token}` }), 401],
    ["from another site", () => ({ cookie: pianist.cookie, origin: "http://elsewhere.test" }), 403],
    [
      "from another port of the same host",
      () => ({ cookie: pianist.cookie, origin: `${publicUrl}:81` }),
      403,
    ],
    ["from nowhere", () => ({ cookie: pianist.cookie }), 403],
    ["who does not belong to the piece", () => ({ cookie: stranger.cookie, origin }), 404],
  ])("nobody comes in %s", async (_who, headers: () => Record<string, string>, status) => {
    expect(await knock(`${node.url}/${pieceId}`, headers())).toBe(status);
  });

  test.each(["", "/", "/no-such-piece", "/..%2f..", "/a/b", "/x?epoch=one"])(
    "there is no room at %j",
    async (path) => {
      expect(await knock(`${node.url}${path}`, { cookie: pianist.cookie, origin })).toBe(404);
    },
  );

  test("an expired session is over", async () => {
    await database().session.updateMany({
      where: { userId: pianist.userId },
      data: { expires: new Date(Date.now() - 1) },
    });
    expect(await knock(`${node.url}/${pieceId}`, { cookie: pianist.cookie, origin })).toBe(401);
  });

  test("a removed member is a stranger", async () => {
    await remove(soloist);
    expect(await knock(`${node.url}/${pieceId}`, { cookie: soloist.cookie, origin })).toBe(404);
  });

  test("one person has only so many sockets", async () => {
    const small = await house.startNode({ socketsPerPerson: 1 });
    const first = new Visitor(small, pieceId, pianist);
    visitors.push(first);
    await first.until(() => first.provider.synced);
    expect(await knock(`${small.url}/${pieceId}`, { cookie: pianist.cookie, origin })).toBe(429);
    expect(await knock(`${small.url}/${pieceId}`, { cookie: soloist.cookie, origin })).toBe(101);
  });

  test("other upgrades are left to others", async () => {
    const other = new Promise<string>((resolve) => {
      node.server.once("upgrade", (request, socket) => {
        socket.destroy();
        resolve(request.url ?? "");
      });
    });
    await expect(knock(node.url.replace("/rooms", "/roomsday"), { origin })).rejects.toThrow();
    expect(await other).toBe("/roomsday");
  });
});

async function remove(guest: Guest): Promise<void> {
  await database().$transaction(async (tx) => {
    await tx.member.updateMany({ where: { pieceId, userId: guest.userId }, data: { removedAt: new Date() } });
    await notify(tx, "member_removed", { pieceId, userId: guest.userId });
  });
}

describe("who loses the right to be here", () => {
  test("a removed member is closed at once, and only they", async () => {
    const [ines, tobias] = await Promise.all([enter(pianist), enter(soloist)]);
    await remove(soloist);
    await tobias.until(() => tobias.closes.length > 0);
    expect(tobias.closes).toEqual([4403]);
    expect(ines.provider.wsconnected).toBe(true);
  });

  test("nothing of a removed member is stored even when nobody was told", async () => {
    const tobias = await enter(soloist);
    await database().member.updateMany({
      where: { pieceId, userId: soloist.userId },
      data: { removedAt: new Date() },
    });
    put(tobias.doc, "comments", comment(soloist.userId, "Too late"));
    await tobias.until(() => tobias.closes.length > 0);
    expect(tobias.closes).toEqual([4403]);
    expect((await readRoomLog(pieceId))?.updates).toEqual([]);
  });

  test("signing out everywhere closes every socket of the person", async () => {
    const [ines, again, tobias] = await Promise.all([enter(pianist), enter(pianist), enter(soloist)]);
    await endAllSessions({ userId: pianist.userId });
    await Promise.all([ines, again].map((visitor) => visitor.until(() => visitor.closes.length > 0)));
    expect([ines.closes, again.closes]).toEqual([[4401], [4401]]);
    expect(tobias.provider.wsconnected).toBe(true);
  });

  test("a session that runs out is closed although nobody tells", async () => {
    const watchful = await house.startNode({ recheckMs: 50 });
    const ines = new Visitor(watchful, pieceId, pianist);
    visitors.push(ines);
    await ines.until(() => ines.provider.synced);
    await database().session.updateMany({ where: { userId: pianist.userId }, data: { expires: new Date() } });
    await ines.until(() => ines.closes.length > 0);
    expect(ines.closes[0]).toBe(4401);
  });

  test("a member who becomes a reader stays in the room and writes no more", async () => {
    const tobias = await enter(soloist);
    await database().$transaction(async (tx) => {
      await tx.member.updateMany({ where: { pieceId, userId: soloist.userId }, data: { role: "reader" } });
      await notify(tx, "piece_changed", { pieceId, what: "members" });
    });
    await tobias.until(() => tobias.welcomes.at(-1)?.member.role === "reader");
    put(tobias.doc, "comments", comment(soloist.userId, "No longer mine to say"));
    await tobias.until(() => tobias.refusals.length > 0);
    expect(tobias.refusals[0]?.kind).toBe("reads-only");
  });
});
