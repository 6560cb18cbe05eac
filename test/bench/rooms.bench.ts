import { type ChildProcess, fork } from "node:child_process";
import { once } from "node:events";
import fs from "node:fs";
import http from "node:http";
import type { AddressInfo } from "node:net";
import os from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { root } from "@/app/_commands/folders.mjs";
import { startSession } from "@/lib/store/auth/session";
import { closeDatabase, database } from "@/lib/store/database";
import { startEmbeddedPostgres } from "@/prisma/embedded/start-embedded-postgres.mjs";
import { migrate } from "@/prisma/migrate.mjs";
import { attachRealtime } from "@/realtime/attach";
import { type LoadGuest, type LoadRoom, runKill, runLoad } from "./room-load";

type Row = Record<string, string | number>;

const origin = "http://rooms.test";
const isServer = process.env.COLLA_BENCH_ROOMS === "server";

const roles = ["pianist", "soloist", "coach"] as const;

/** Rooms of three people, two of whom write; updates a second over all of them. */
const loads = [
  { rooms: 20, updatesPerSecond: 100, seconds: 6 },
  { rooms: 100, updatesPerSecond: 200, seconds: 8 },
  { rooms: 200, updatesPerSecond: 350, seconds: 10 },
];

/**
 * Rooms on loopback: the server in a process of its own, Postgres with every commit on disk, the clients here.
 * Latency runs from a client's writing to its acknowledgement, and to the moment another client has it.
 */
export const benchmark = {
  name: "Rooms of three people: stored before seen",
  async run(): Promise<Row[]> {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), "colla-bench-"));
    fs.chmodSync(folder, 0o711);
    const postgres = await startEmbeddedPostgres({ folder: path.join(folder, "database") });
    try {
      process.env.DATABASE_URL = postgres.url;
      await migrate(postgres.url, path.join(root, "prisma/migrations"));
      const guests = await bringGuests();
      return [...(await measureLoads(guests)), await killAgainAndAgain(guests)];
    } finally {
      await closeDatabase();
      await postgres.stop();
      for (const used of new Set([folder, postgres.base])) fs.rmSync(used, { recursive: true, force: true });
    }
  },
};

async function measureLoads(guests: readonly LoadGuest[]): Promise<Row[]> {
  const server = await startServer();
  const rows: Row[] = [];
  try {
    // The first load warms both processes up and is not counted.
    for (const load of [{ rooms: 10, updatesPerSecond: 100, seconds: 2 }, ...loads]) {
      const rooms = await bringRooms(guests, load.rooms);
      const before = await askProcessorTime(server.child);
      const result = await runLoad({ ...load, address: server.address, origin, rooms });
      const spent = (await askProcessorTime(server.child)) - before;
      rows.push({
        ...toRow(load.rooms, result),
        "server ms/update": Number((spent / result.sent).toFixed(2)),
      });
    }
  } finally {
    server.child.kill("SIGTERM");
    await once(server.child, "exit");
  }
  return rows.slice(1);
}

const kills = 8;

/** `kill -9` of the server in the middle of a burst, each time with new rooms. */
async function killAgainAndAgain(guests: readonly LoadGuest[]): Promise<Row> {
  let [promised, lost] = [0, 0];
  for (let round = 0; round < kills; round += 1) {
    const { child, address } = await startServer();
    const rooms = await bringRooms(guests, 20);
    const load = { address, origin, rooms, updatesPerSecond: 400, seconds: 1.5 };
    const result = await runKill(load, () => child.kill("SIGKILL"));
    promised += result.promised;
    lost += result.lost;
    if (child.exitCode === null && child.signalCode === null) await once(child, "exit");
  }
  return { rooms: 20, sockets: 60, updates: `${promised} before ${kills} kills`, lost };
}

async function startServer(): Promise<{ child: ChildProcess; address: string }> {
  const child = fork(fileURLToPath(import.meta.url), {
    env: { ...process.env, COLLA_BENCH_ROOMS: "server" },
  });
  const [address] = (await once(child, "message")) as [string];
  return { child, address };
}

/** Milliseconds of processor time that the server has used so far. */
async function askProcessorTime(child: ChildProcess): Promise<number> {
  child.send("processor time");
  const [milliseconds] = (await once(child, "message")) as [number];
  return milliseconds;
}

async function bringGuests(): Promise<LoadGuest[]> {
  return Promise.all(
    roles.map(async (role) => {
      const data = { email: `${role}@rooms.test`, name: role, passwordHash: "none" };
      const { id } = await database().user.create({ data });
      const { token } = await startSession(id);
      return { userId: id, cookie: `next-auth.session-token=${token}`, isPlayer: role !== "coach" };
    }),
  );
}

async function bringRooms(guests: readonly LoadGuest[], count: number): Promise<LoadRoom[]> {
  const rooms: LoadRoom[] = [];
  for (let index = 0; index < count; index += 1) {
    const piece = await database().piece.create({ data: { title: `Piece ${index}`, tempo: {} } });
    const data = guests.flatMap(({ userId }, place) => {
      const role = roles[place];
      return role ? [{ pieceId: piece.id, userId, role }] : [];
    });
    await database().member.createMany({ data });
    rooms.push({ pieceId: piece.id, guests });
  }
  return rooms;
}

function toRow(rooms: number, result: Awaited<ReturnType<typeof runLoad>>): Row {
  return {
    rooms,
    sockets: rooms * 3,
    updates: result.sent,
    "saved p50 ms": percentile(result.acknowledged, 0.5),
    "saved p99 ms": percentile(result.acknowledged, 0.99),
    "seen p50 ms": percentile(result.seen, 0.5),
    "seen p99 ms": percentile(result.seen, 0.99),
    lost: result.lost,
    diverged: result.diverged,
  };
}

function percentile(values: readonly number[], part: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return Number((sorted[Math.floor(part * (sorted.length - 1))] ?? Number.NaN).toFixed(1));
}

async function serve(): Promise<void> {
  const server = http.createServer();
  const rooms = attachRealtime({
    server,
    path: "/rooms",
    publicUrl: origin,
    // One machine plays six hundred people here.
    limits: { socketsPerPerson: 10_000, messagesPerSecond: 10_000, messageBurst: 10_000 },
    log: ({ what, detail }) => what !== "closed" && console.error(what, detail),
  });
  server.listen(0, "127.0.0.1");
  await Promise.all([once(server, "listening"), rooms.whenListening()]);
  process.send?.(`ws://127.0.0.1:${(server.address() as AddressInfo).port}/rooms`);
  process.on("message", () => {
    const { user, system } = process.cpuUsage();
    process.send?.((user + system) / 1000);
  });
  process.once("SIGTERM", () => void rooms.close().then(() => process.exit(0)));
}

if (isServer) await serve();
