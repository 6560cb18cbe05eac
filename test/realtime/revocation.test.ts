import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { endAllSessions, endSession, startSession } from "@/lib/store/auth/session";
import { database } from "@/lib/store/database";
import { notify } from "@/lib/store/notify";
import { readRoomLog } from "@/lib/store/room/read-room-log";
import { issueRoomTicket } from "@/lib/store/room/room-ticket";
import type { MemberRole } from "@/lib/store/who-may";
import { bringGuest, bringPiece, type Guest, openHouse, type RunningNode } from "@/test/realtime/house";
import { comment, put, textsIn } from "@/test/realtime/records";
import { Visitor } from "@/test/realtime/visitor";

// The periodic check never comes here: what ends somebody's stay is what was told at once.
const anHour = 3_600_000;

let house: Awaited<ReturnType<typeof openHouse>>;
let nodes: [here: RunningNode, there: RunningNode];
let pianist: Guest;
let soloist: Guest;
let coach: Guest;
let reader: Guest;
let pieceId: string;
const visitors: Visitor[] = [];

beforeAll(async () => {
  house = await openHouse();
  const start = () => house.startNode({ recheckMs: anHour });
  nodes = [await start(), await start()];
});

beforeEach(async () => {
  pianist = await bringGuest("Nerys Quill");
  soloist = await bringGuest("Matthis Orban");
  coach = await bringGuest("Dagny Thorsell");
  reader = await bringGuest("Page Turner");
  pieceId = await bringPiece({ pianist, soloist, coach, reader });
});

afterEach(() => {
  for (const visitor of visitors.splice(0)) visitor.leave();
});

afterAll(() => house.close());

type Entry = "cookie" | "ticket";

async function enter(guest: Guest, at: RunningNode, by: Entry = "cookie"): Promise<Visitor> {
  const issued = by === "ticket" ? await issueRoomTicket(guest, guest.token, pieceId) : null;
  const ticket = issued?.ok ? issued.value.ticket : undefined;
  const visitor = new Visitor(at, pieceId, guest, undefined, ticket);
  visitors.push(visitor);
  await visitor.until(() => visitor.provider.synced);
  return visitor;
}

async function remove(guest: Guest): Promise<void> {
  await database().$transaction(async (tx) => {
    await tx.member.updateMany({ where: { pieceId, userId: guest.userId }, data: { removedAt: new Date() } });
    await notify(tx, "piece_changed", { pieceId, what: "members" });
    await notify(tx, "member_removed", { pieceId, userId: guest.userId });
  });
}

async function setRole(guest: Guest, role: MemberRole): Promise<void> {
  await database().$transaction(async (tx) => {
    await tx.member.updateMany({ where: { pieceId, userId: guest.userId }, data: { role } });
    await notify(tx, "piece_changed", { pieceId, what: "members" });
  });
}

const ends: readonly [string, (guest: Guest) => Promise<void>, number][] = [
  ["is removed", remove, 4403],
  ["signs out everywhere", endAllSessions, 4401],
  ["signs out", ({ token }) => endSession(token), 4401],
];

const cases = ends.flatMap(([what, end, code]) =>
  (["cookie", "ticket"] as const).flatMap((by) =>
    ([0, 1] as const).map((at) => ({ what, end, code, by, at, where: at === 0 ? "this" : "another" })),
  ),
);

describe("somebody who came in by their", () => {
  test.each(cases)("$by on $where node and $what is closed, and writes nothing more", async (one) => {
    const nerys = await enter(pianist, nodes[0]);
    const matthis = await enter(soloist, nodes[one.at], one.by);
    put(matthis.doc, "comments", comment(soloist.userId, "In time"));
    await matthis.until(() => matthis.unsaved === 0);
    await one.end(soloist);
    put(matthis.doc, "comments", comment(soloist.userId, "Too late"));
    await matthis.until(() => matthis.closes.length > 0);
    expect(matthis.closes[0]).toBe(one.code);
    put(nerys.doc, "comments", comment(pianist.userId, "Still here"));
    await nerys.until(() => nerys.unsaved === 0);
    expect(nerys.closes).toEqual([]);
    expect((await readRoomLog(pieceId))?.updates.map(({ userId }) => userId)).toEqual([
      soloist.userId,
      pianist.userId,
    ]);
    expect(textsIn(nerys.doc)).toEqual(["In time", "Still here"]);
  });
});

test("signing out on one device leaves the others where they are", async () => {
  const { token } = await startSession(pianist.userId);
  const phone: Guest = { ...pianist, token, cookie: `next-auth.session-token=${token}` };
  const [desk, away] = [await enter(pianist, nodes[0]), await enter(phone, nodes[0])];
  const byTicket = await enter(phone, nodes[1], "ticket");
  await endSession(pianist.token);
  await desk.until(() => desk.closes.length > 0);
  expect(desk.closes).toEqual([4401]);
  for (const visitor of [away, byTicket]) {
    put(visitor.doc, "comments", comment(pianist.userId, "From my other device"));
    await visitor.until(() => visitor.unsaved === 0);
    expect(visitor.closes).toEqual([]);
  }
});

describe("a role that changes applies at once", () => {
  test("a reader who becomes a coach gets what was written, and writes", async () => {
    const nerys = await enter(pianist, nodes[0]);
    put(nerys.doc, "comments", comment(pianist.userId, "Before you came"));
    await nerys.until(() => nerys.unsaved === 0);
    const turner = await enter(reader, nodes[1]);
    expect(textsIn(turner.doc)).toEqual([]);
    await setRole(reader, "coach");
    await turner.until(() => textsIn(turner.doc).length === 1);
    expect(turner.welcomes.at(-1)?.member.role).toBe("coach");
    put(turner.doc, "comments", comment(reader.userId, "Now I may speak"));
    await nerys.until(() => textsIn(nerys.doc).includes("Now I may speak"));
    expect(turner.closes).toEqual([]);
  });

  test("a coach who becomes a reader hears nothing more, and is refused", async () => {
    const [nerys, dagny] = [await enter(pianist, nodes[0]), await enter(coach, nodes[1])];
    await setRole(coach, "reader");
    await dagny.until(() => dagny.welcomes.at(-1)?.member.role === "reader");
    put(nerys.doc, "comments", comment(pianist.userId, "Between the two of us"));
    await nerys.until(() => nerys.unsaved === 0);
    put(dagny.doc, "comments", comment(coach.userId, "No longer mine to say"));
    await dagny.until(() => dagny.refusals.length > 0);
    expect(dagny.refusals[0]?.kind).toBe("reads-only");
    expect(textsIn(dagny.doc)).toEqual(["No longer mine to say"]);
    expect((await readRoomLog(pieceId))?.updates.map(({ userId }) => userId)).toEqual([pianist.userId]);
  });
});
