import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { endSession, hashToken } from "@/lib/store/auth/session";
import { runAt } from "@/lib/store/clock";
import { database } from "@/lib/store/database";
import { issueRoomTicket } from "@/lib/store/room/room-ticket";
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
let reader: Guest;
let stranger: Guest;
let pieceId: string;
const origin = publicUrl;

beforeAll(async () => {
  house = await openHouse();
  node = await house.startNode();
});

beforeEach(async () => {
  pianist = await bringGuest("Nerys Quill");
  reader = await bringGuest("Page Turner");
  stranger = await bringGuest("Nobody Here");
  pieceId = await bringPiece({ pianist, reader });
});

afterAll(() => house.close());

async function issue(guest: Guest, piece = pieceId): Promise<string> {
  const issued = await issueRoomTicket(guest, guest.token, piece);
  if (!issued.ok) throw new RangeError(issued.problem.kind);
  return issued.value.ticket;
}

const door = (ticket: string, piece = pieceId) => `${node.url}/${piece}?ticket=${encodeURIComponent(ticket)}`;

describe("a ticket", () => {
  test("lets its person in without a cookie, once", async () => {
    const ticket = await issue(pianist);
    expect(await knock(door(ticket), { origin })).toBe(101);
    expect(await knock(door(ticket), { origin })).toBe(401);
  });

  test("of two who show it at the same time lets in one", async () => {
    const ticket = await issue(pianist);
    const answers = await Promise.all(Array.from({ length: 6 }, () => knock(door(ticket), { origin })));
    expect(answers.sort()).toEqual([101, 401, 401, 401, 401, 401]);
  });

  test("is its person's, whatever cookie comes with it", async () => {
    const visitor = new Visitor(node, pieceId, reader, undefined, await issue(reader));
    await visitor.until(() => visitor.welcomes.length > 0);
    expect(visitor.welcomes[0]?.member).toEqual({
      userId: reader.userId,
      name: "Page Turner",
      role: "reader",
    });
    visitor.leave();
    expect(await knock(door("made-up"), { origin, cookie: pianist.cookie })).toBe(401);
    expect(await knock(door(""), { origin, cookie: pianist.cookie })).toBe(401);
  });

  test.each([undefined, "http://elsewhere.test", `${publicUrl}.elsewhere.test`, "null"])(
    "is not looked at when it comes from %s",
    async (other) => {
      const ticket = await issue(pianist);
      expect(await knock(door(ticket), other ? { origin: other } : {})).toBe(403);
      expect(await knock(door(ticket), { origin })).toBe(101);
    },
  );

  test("is for one piece", async () => {
    const other = await bringPiece({ pianist });
    expect(await knock(door(await issue(pianist), other), { origin })).toBe(401);
  });

  test("lies only so long", async () => {
    const early = new Date(Date.now() - 61_000);
    const ticket = await runAt(early, () => issue(pianist));
    expect(await knock(door(ticket), { origin })).toBe(401);
    await runAt(early, () => issue(pianist));
    await issue(pianist);
    expect(await database().roomTicket.count({ where: { expires: { lte: new Date() } } })).toBe(0);
  });

  test("ends with its session, and not with another of the same person", async () => {
    const other = await bringGuest("Another");
    await database().session.updateMany({
      where: { userId: other.userId },
      data: { userId: pianist.userId },
    });
    const [ended, open] = [await issue(pianist), await issue({ ...pianist, token: other.token })];
    await endSession(pianist.token);
    expect(await knock(door(ended), { origin })).toBe(401);
    expect(await knock(door(open), { origin })).toBe(101);
  });

  test("is worth nothing to someone who has left the piece since", async () => {
    const ticket = await issue(reader);
    await database().member.updateMany({
      where: { pieceId, userId: reader.userId },
      data: { removedAt: new Date() },
    });
    expect(await knock(door(ticket), { origin })).toBe(404);
  });

  test("is stored as a hash only", async () => {
    const ticket = await issue(pianist);
    expect(ticket).toMatch(/^[\w-]{43}$/);
    const [row] = await database().roomTicket.findMany({ where: { pieceId } });
    expect(row).toMatchObject({ tokenHash: hashToken(ticket), sessionHash: hashToken(pianist.token) });
  });
});

describe("nobody gets a ticket", () => {
  test.each([
    ["for a piece of others", () => issueRoomTicket(stranger, stranger.token, pieceId)],
    ["for no piece", () => issueRoomTicket(pianist, pianist.token, "no-such-piece")],
    ["with another's session", () => issueRoomTicket(pianist, stranger.token, pieceId)],
    ["without a session", () => issueRoomTicket(pianist, "", pieceId)],
  ])("%s", async (_what, ask) => {
    expect(await ask()).toEqual({ ok: false, problem: { kind: "not-found" } });
  });

  test("while many of theirs lie unused", async () => {
    for (let index = 0; index < 64; index += 1) await issue(pianist);
    const refused = await issueRoomTicket(pianist, pianist.token, pieceId);
    expect(refused).toMatchObject({ ok: false, problem: { kind: "rate-limited" } });
    expect((await issueRoomTicket(reader, reader.token, pieceId)).ok).toBe(true);
  });
});

test("who came in with a ticket writes like anybody", async () => {
  const visitor = new Visitor(node, pieceId, pianist, undefined, await issue(pianist));
  await visitor.until(() => visitor.provider.synced);
  put(visitor.doc, "comments", comment(pianist.userId, "By ticket"));
  await visitor.until(() => visitor.unsaved === 0);
  expect(await database().roomUpdate.count({ where: { pieceId, userId: pianist.userId } })).toBe(1);
  visitor.leave();
});
