import { fileURLToPath } from "node:url";
import { percentile } from "./percentile";
import { readFamilyProcessorMs } from "./processor-time";
import { type LoadResult, runLoad } from "./room-load";
import { bringRooms } from "./room-people";
import { type RoomServer, serveRoomsIfAsked, startInMemoryServer, startRoomServer } from "./room-servers";
import { withThrowAwayDatabase } from "./throw-away-database";

type Row = Record<string, string | number>;

interface MeasuredLoad {
  readonly rooms: number;
  readonly updatesPerSecond: number;
  readonly seconds: number;
  readonly nodes: number;
}

/** Rooms of three people, two of whom write; updates a second over all of them. */
const loads: readonly MeasuredLoad[] = [
  { rooms: 500, updatesPerSecond: 350, seconds: 12, nodes: 1 },
  { rooms: 200, updatesPerSecond: 2_000, seconds: 10, nodes: 1 },
  { rooms: 200, updatesPerSecond: 350, seconds: 12, nodes: 2 },
];

/** Warms the processes up and is not counted. */
const warmUp: MeasuredLoad = { rooms: 30, updatesPerSecond: 600, seconds: 3, nodes: 1 };

const program = fileURLToPath(import.meta.url);

/** A program plays the people, and faster than they would. */
const limits = { messagesPerSecond: 10_000, messageBurst: 10_000 };

/**
 * Rooms on loopback: each server in a process of its own, Postgres with every commit on disk, the clients here.
 * Latency runs from a client's writing to its acknowledgement, and to the moment another client has it. Beside it
 * the same loads on the server in memory that y-websocket 2 brings along, which checks and stores nothing.
 */
export const benchmark = {
  name: "Rooms of three people: stored before seen",
  run: (): Promise<Row[]> =>
    withThrowAwayDatabase(async ({ pid }) => {
      const rows: Row[] = [];
      for (const load of loads) rows.push(await measureOurs(load, pid), await measureInMemory(load));
      return rows;
    }),
};

async function measureOurs(load: MeasuredLoad, databasePid: number): Promise<Row> {
  const starting = Array.from({ length: load.nodes }, () => startRoomServer(program, limits));
  return measure(load, "stored before seen", await Promise.all(starting), databasePid);
}

/** Several nodes cannot share rooms in memory; there is one. */
async function measureInMemory(load: MeasuredLoad): Promise<Row> {
  return measure({ ...load, nodes: 1 }, "in memory only", [await startInMemoryServer()], null);
}

async function measure(
  load: MeasuredLoad,
  kind: string,
  servers: readonly RoomServer[],
  databasePid: number | null,
): Promise<Row> {
  const addresses = servers.map(({ address }) => address);
  const hasLog = databasePid !== null;
  try {
    let spent = { server: 0, database: 0 };
    const watch = async () => {
      const before = await readSpent(servers, databasePid);
      return async () => {
        const after = await readSpent(servers, databasePid);
        spent = { server: after.server - before.server, database: after.database - before.database };
      };
    };
    for (const one of [warmUp, load]) {
      const rooms = await bringRooms(one.rooms);
      const { updatesPerSecond, seconds } = one;
      const goesOn = (passed: number) => passed < seconds;
      const result = await runLoad({ addresses, rooms, updatesPerSecond, goesOn, hasLog }, watch);
      if (one === load) return toRow(load, kind, result, spent, await readResident(servers));
    }
    throw new RangeError("nothing was measured");
  } finally {
    await Promise.all(servers.map((server) => server.stop()));
  }
}

async function readSpent(servers: readonly RoomServer[], databasePid: number | null) {
  const usages = await Promise.all(servers.map((server) => server.usage()));
  return {
    server: usages.reduce((sum, { processorMs }) => sum + processorMs, 0),
    database: (databasePid === null ? null : readFamilyProcessorMs(databasePid)) ?? 0,
  };
}

async function readResident(servers: readonly RoomServer[]): Promise<number> {
  const usages = await Promise.all(servers.map((server) => server.usage()));
  return usages.reduce((sum, { residentMegabytes }) => sum + residentMegabytes, 0);
}

function toRow(
  { rooms, nodes, updatesPerSecond }: MeasuredLoad,
  kind: string,
  { tally, lost, diverged }: LoadResult,
  spent: { server: number; database: number },
  residentMegabytes: number,
): Row {
  const each = (milliseconds: number) => Number((milliseconds / tally.written).toFixed(3));
  return {
    kind,
    nodes,
    sockets: rooms * 3,
    "updates/s": updatesPerSecond,
    updates: tally.written,
    "saved p50 ms": percentile(tally.savedMs, 0.5),
    "saved p99 ms": percentile(tally.savedMs, 0.99),
    "seen p50 ms": percentile(tally.seenMs, 0.5),
    "seen p99 ms": percentile(tally.seenMs, 0.99),
    late: tally.written * 3 - tally.savedMs.length - tally.seenMs.length,
    lost,
    diverged,
    "server ms/update": each(spent.server),
    "database ms/update": each(spent.database),
    "RSS MB": Math.round(residentMegabytes),
  };
}

await serveRoomsIfAsked();
