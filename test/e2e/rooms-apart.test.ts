import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { database as client } from "@/lib/store/database";
import { bringGuest, bringPiece, type Guest } from "@/test/realtime/house";
import { knock, Visitor } from "@/test/realtime/visitor";
import { findBrowser, launchBrowser, missingBrowser } from "@/test/setup/browser";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { findFreePort, type RunningProduct, startProduct, startRoomsApart } from "@/test/setup/start-product";
import { inDatabase } from "./in-database";
import { loadDemoInto } from "./load-demo-into";
import { Person } from "./person";

// One process with the pages and two with rooms. The rooms answer under 127.0.0.1 and the pages under localhost: for
// a browser these are two sites, and a cookie of the one is never sent to the other.

const password = "for this test only";
let database: FreshDatabase;
let pages: RunningProduct;
let rooms: [one: RunningProduct, two: RunningProduct];
let pianist: Guest;
let pieceId: string;

beforeAll(async () => {
  database = await createFreshDatabase();
  await loadDemoInto(database.url, password);
  await inDatabase(database.url, async () => {
    pianist = await bringGuest("Ines Varga");
    pieceId = await bringPiece({ pianist });
  });
  const [port, roomsPort] = [await findFreePort(), await findFreePort()];
  const environment = {
    NEXTAUTH_URL: `http://localhost:${port}`,
    COLLA_ROOMS: "apart",
    COLLA_ROOMS_URL: `ws://127.0.0.1:${roomsPort}`,
  };
  pages = await startProduct({ databaseUrl: database.url, port, environment });
  rooms = [
    await startRoomsApart({ databaseUrl: database.url, port: roomsPort, environment }),
    await startRoomsApart({ databaseUrl: database.url, environment }),
  ];
});

afterAll(async () => {
  await Promise.all([pages, ...(rooms ?? [])].map((running) => running?.stop()));
  await database?.drop();
});

const doorOf = ({ port }: RunningProduct) => ({
  url: `ws://127.0.0.1:${port}/rooms`,
  origin: pages.url,
});

async function enter(guest: Guest, at: RunningProduct, ticket?: string): Promise<Visitor> {
  const visitor = new Visitor(doorOf(at), pieceId, guest, undefined, ticket);
  await visitor.until(() => visitor.provider.synced);
  return visitor;
}

async function askTicket(guest: Guest, piece = pieceId): Promise<Response> {
  return fetch(`${pages.url}/api/pieces/${piece}/room-ticket`, {
    method: "POST",
    headers: { cookie: guest.cookie, origin: pages.url },
  });
}

test("each process says where the rooms are, and the pages' has none", async () => {
  for (const { port } of [pages, ...rooms]) {
    const health = await fetch(`http://127.0.0.1:${port}/api/health`);
    expect([health.status, await health.json()]).toMatchObject([200, { ok: true, rooms: "apart" }]);
    expect((await fetch(`http://127.0.0.1:${port}/api/metrics`)).status).toBe(200);
  }
  const knocking = knock(`ws://127.0.0.1:${pages.port}/rooms/${pieceId}`, { origin: pages.url });
  await expect(knocking).rejects.toThrow("socket hang up");
});

test("a page gets a ticket and the address where it is worth something", async () => {
  const answer = await askTicket(pianist);
  expect(answer.status).toBe(201);
  const { ticket, address } = (await answer.json()) as { ticket: string; address: string };
  expect(address).toBe(doorOf(rooms[0]).url);
  const visitor = await enter(pianist, rooms[1], ticket);
  expect(visitor.welcomes[0]?.member.name).toBe("Ines Varga");
  visitor.leave();
  expect((await askTicket(pianist, "no-such-piece")).status).toBe(404);
  const page = await fetch(`${pages.url}/sign-in`);
  expect(page.headers.get("content-security-policy")).toContain(
    `connect-src 'self' ${new URL(address).origin}`,
  );
});

const executable = await findBrowser();
if (!executable) console.warn(missingBrowser);

describe.skipIf(!executable)("in a browser", () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchBrowser(executable ?? "");
  });
  afterAll(() => browser?.close());

  test("a page reaches its room on the other origin, and sees who is on another node", async () => {
    const nerys = await Person.sitDown(browser, pages.url);
    await nerys.signIn("nerys@example.org", password);
    await nerys.page.getByRole("link", { name: "Look and answer" }).click();
    await nerys.page.waitForURL(/\/pieces\/[\w-]+/);
    const demoPiece = new URL(nerys.page.url()).pathname.split("/").at(-1) ?? "";
    const matthis = await inDatabase(database.url, async () => {
      const { id, name } = await client().user.findUniqueOrThrow({
        where: { email: "matthis@example.org" },
      });
      const guest = await bringGuest("Nobody");
      await client().session.updateMany({ where: { userId: guest.userId }, data: { userId: id } });
      return { ...guest, userId: id, name };
    });
    const visitor = new Visitor(doorOf(rooms[1]), demoPiece, matthis);
    const names = () =>
      [...visitor.provider.awareness.getStates().values()].map(
        ({ member }) => (member as { name?: string } | undefined)?.name,
      );
    await visitor.until(() => names().includes("Nerys Quill"));
    await nerys.sees(nerys.page.getByTitle(/^Matthis Orban is here now/));
    visitor.leave();
    await nerys.sees(nerys.page.getByTitle(/^Matthis Orban$/));
    await nerys.leave();
  });
});
