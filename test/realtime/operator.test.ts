import http from "node:http";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { closeDatabase } from "@/lib/store/database";
import { version } from "@/package.json";
import { type RunningRooms, readRoomsSettings, startRooms } from "@/realtime/main";
import { bringGuest, bringPiece, openHouse, publicUrl } from "@/test/realtime/house";
import { comment, put } from "@/test/realtime/records";
import { openRelay } from "@/test/realtime/relay";
import { knock, Visitor } from "@/test/realtime/visitor";

const token = "a token of this test only";
let house: Awaited<ReturnType<typeof openHouse>>;
let rooms: RunningRooms;

beforeAll(async () => {
  house = await openHouse();
  process.env.NEXTAUTH_URL = publicUrl;
  rooms = await startRooms(readRoomsSettings({ ...process.env, PORT: "0", COLLA_METRICS_TOKEN: token }));
});

afterAll(async () => {
  await rooms.close();
  await house.close();
});

interface Answer {
  readonly status: number;
  readonly text: string;
}

function ask(path: string, headers: Record<string, string> = {}, method = "GET"): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const to = { host: "127.0.0.1", port: rooms.port, path, headers, method };
    const request = http.request(to, async (response) => {
      let text = "";
      for await (const piece of response.setEncoding("utf8")) text += piece;
      resolve({ status: response.statusCode ?? 0, text });
    });
    request.once("error", reject);
    request.end();
  });
}

describe("health", () => {
  test("says where rooms are served and which version it is, under whatever name", async () => {
    const { status, text } = await ask("/api/health?probe", { host: "10.0.0.5" });
    expect([status, JSON.parse(text)]).toEqual([200, { ok: true, database: "up", rooms: "apart", version }]);
    expect((await ask("/api/health", {}, "POST")).status).toBe(405);
  });

  test("is bad while the database is away, and good again afterwards", async () => {
    const relay = await openRelay(house.databaseUrl);
    await closeDatabase();
    process.env.DATABASE_URL = relay.url;
    try {
      expect((await ask("/api/health")).status).toBe(200);
      relay.cut();
      const { status, text } = await ask("/api/health");
      expect([status, JSON.parse(text)]).toMatchObject([503, { ok: false, database: "down" }]);
      relay.mend();
      expect((await ask("/api/health")).status).toBe(200);
    } finally {
      await closeDatabase();
      process.env.DATABASE_URL = house.databaseUrl;
      await relay.close();
    }
  });
});

test.each(["/", "/rooms", "/api/healthy", "/api/metrics/all", "/sign-in"])("there is no %s", async (path) => {
  expect((await ask(path)).status).toBe(404);
});

describe("measurements", () => {
  const elsewhere = { "x-forwarded-for": "198.51.100.7" };
  const bearer = (value: string) => ({ authorization: `Bearer ${value}` });

  test.each([
    ["from this machine", {}, 200],
    ["through a proxy", elsewhere, 404],
    ["through a proxy that says so in another way", { forwarded: "for=198.51.100.7" }, 404],
    ["by a page that calls this machine by a name of its own", { host: "elsewhere.test:3001" }, 404],
    ["through a proxy with the token", { ...elsewhere, ...bearer(token) }, 200],
    ["through a proxy with another token", { ...elsewhere, ...bearer(`${token}r`) }, 404],
    ["through a proxy with an empty token", { ...elsewhere, ...bearer("") }, 404],
  ])("asked for %s", async (_how, headers: Record<string, string>, status) => {
    const answer = await ask("/api/metrics", headers);
    expect(answer.status).toBe(status);
    expect(answer.text.includes("colla_room_sockets")).toBe(status === 200);
  });

  test("a token that keeps nobody out is not taken", () => {
    expect(() => readRoomsSettings({ ...process.env, COLLA_METRICS_TOKEN: "short" })).toThrow(
      "at least 16 characters",
    );
  });

  test("count what happened, and nothing of what was written", async () => {
    const read = async (line: string) => {
      const { text } = await ask("/api/metrics");
      expect(text).not.toMatch(/Nerys|Quill|octaves/);
      return Number(
        text
          .split("\n")
          .find((one) => one.startsWith(`${line} `))
          ?.slice(line.length),
      );
    };
    const [pianist, reader] = [await bringGuest("Nerys Quill"), await bringGuest("Page Turner")];
    const pieceId = await bringPiece({ pianist, reader });
    const node = { url: `ws://127.0.0.1:${rooms.port}/rooms` };
    const nerys = new Visitor(node, pieceId, pianist);
    for (const text of ["Take the octaves", "Leave the octaves"]) {
      put(nerys.doc, "comments", comment(pianist.userId, text));
      await nerys.until(() => nerys.provider.synced && nerys.unsaved === 0);
    }
    const turner = new Visitor(node, pieceId, reader);
    await turner.until(() => turner.provider.synced);
    expect(await read("colla_room_sockets")).toBe(2);
    expect(await read("colla_room_rooms")).toBe(1);
    put(turner.doc, "comments", comment(reader.userId, "Not mine to say"));
    await turner.until(() => turner.refusals.length > 0);
    await knock(`${node.url}/${pieceId}`, { origin: publicUrl });
    await knock(`${node.url}/${pieceId}`, { cookie: pianist.cookie, origin: "http://elsewhere.test" });
    expect(await read("colla_room_updates_stored_total")).toBe(2);
    expect(await read("colla_room_storing_seconds_count")).toBe(2);
    expect(await read('colla_room_storing_seconds_bucket{le="+Inf"}')).toBe(2);
    expect(await read('colla_room_frames_refused_total{reason="reads-only"}')).toBe(1);
    expect(await read('colla_room_sockets_closed_total{reason="refused"}')).toBe(1);
    expect(await read('colla_room_turned_away_total{reason="signed-out"}')).toBe(1);
    expect(await read('colla_room_turned_away_total{reason="wrong-origin"}')).toBe(1);
    expect(await read("colla_room_snapshots_total")).toBe(0);
    expect(await read("process_cpu_seconds_total")).toBeGreaterThan(0);
    for (const visitor of [nerys, turner]) visitor.leave();
  });
});
