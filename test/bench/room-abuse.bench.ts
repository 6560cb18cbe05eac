import { fileURLToPath } from "node:url";
import { database } from "@/lib/store/database";
import { issueRoomTicket, takeRoomTicket } from "@/lib/store/room/room-ticket";
import { attackFromOutside, attackIfAsked, type KindCount } from "./attack";
import { auditRoomLog } from "./audit-room-log";
import { percentile } from "./percentile";
import { type LoadResult, runLoad } from "./room-load";
import { bringRooms, type FurnishedRoom } from "./room-people";
import { hasEnded, type RoomServer, serveRoomsIfAsked, startRoomServer } from "./room-servers";
import { withThrowAwayDatabase } from "./throw-away-database";

type Row = Record<string, string | number>;

const program = fileURLToPath(import.meta.url);

const total = Number(process.env.COLLA_BENCH_FRAMES ?? 200_000);
/** However slow the machine is, it ends. */
const longestMs = 240_000;

const calmSeconds = 5;
const updatesPerSecond = 60;

/**
 * Bad frames and handshakes against one room server with its own limits, while people in other rooms write: their
 * latency before and meanwhile, the server's memory, and at the end every log read again record by record.
 */
export const benchmark = {
  name: "Rooms under abuse",
  run: (): Promise<Row[]> =>
    withThrowAwayDatabase(async () => {
      const server = await startRoomServer(program);
      try {
        return await measure(server);
      } finally {
        await server.stop();
      }
    }),
  details: () => figures,
};

/** The same as numbers, for whoever reads the file and not the table. */
let figures: object = {};

async function measure(server: RoomServer): Promise<Row[]> {
  const addresses = [server.address];
  const witnesses = await bringRooms(20);
  const load = { addresses, rooms: witnesses, updatesPerSecond, hasLog: true };
  const abused = await bringRooms(20, ["pianist", "soloist", "coach", "reader"]);
  const usedTicket = await bringUsedTicket(abused);
  const attack = { address: server.address, rooms: abused, usedTicket, longestMs };
  // Neither the first connections nor the first refusals are what is measured: memory settles first.
  await attackFromOutside(program, { ...attack, total: Math.min(10_000, total) });
  const calm = await runLoad(
    { ...load, goesOn: (passed) => passed < calmSeconds },
    async () => async () => {},
  );
  const memory = watchMemory(server);
  const before = (await server.usage()).residentMegabytes;
  const started = performance.now();
  let counts = new Map<string, KindCount>();
  let isDone = false;
  const meanwhile = await runLoad({ ...load, goesOn: () => !isDone }, async () => {
    void attackFromOutside(program, { ...attack, total })
      .then((done) => {
        counts = done;
      })
      .finally(() => {
        isDone = true;
      });
    return async () => {};
  });
  const seconds = (performance.now() - started) / 1000;
  const peak = await memory.stop();
  const after = (await server.usage()).residentMegabytes;
  const logs = await audit([...witnesses, ...abused]);
  figures = {
    otherRooms: { calm: toFigures(calm), meanwhile: toFigures(meanwhile) },
    residentMegabytes: { before, peak, after },
    logs,
    kinds: Object.fromEntries(
      [...counts].map(([kind, count]) => [kind, { ...count, answers: Object.fromEntries(count.answers) }]),
    ),
  };
  return [
    {
      kind: "all together",
      sent: [...counts.values()].reduce((sum, { sent }) => sum + sent, 0),
      connections: [...counts.values()].reduce((sum, { connections }) => sum + connections, 0),
      answers: `${counts.size} kinds in ${seconds.toFixed(0)} s, server ${hasEnded(server.child) ? "DEAD" : "alive"}`,
    },
    toWitnessRow("other rooms, calm", calm),
    toWitnessRow("other rooms, meanwhile", meanwhile),
    {
      kind: "memory of the server",
      answers: `RSS ${before.toFixed(0)} MB before, ${peak.toFixed(0)} at most, ${after.toFixed(0)} after`,
    },
    {
      kind: "logs read again",
      sent: logs.entries,
      connections: logs.rooms,
      answers: `${logs.records} records, ${logs.faults.length} faults ${logs.faults.slice(0, 3).join("; ")}`,
    },
    ...[...counts].map(toRow),
  ];
}

async function bringUsedTicket([room]: readonly FurnishedRoom[]): Promise<string> {
  const guest = room?.guests[0];
  if (!room || !guest) throw new RangeError("nobody to give a ticket to");
  const token = guest.cookie.slice(guest.cookie.indexOf("=") + 1);
  const issued = await issueRoomTicket(guest, token, room.pieceId);
  if (!issued.ok) throw new RangeError("no ticket was given");
  await takeRoomTicket(issued.value.ticket, room.pieceId);
  return issued.value.ticket;
}

/** Asks every second; the highest of all answers. */
function watchMemory(server: RoomServer) {
  let isOver = false;
  const watch = async () => {
    let peak = 0;
    while (!isOver) {
      peak = Math.max(peak, (await server.usage()).residentMegabytes);
      await new Promise((resolve) => setTimeout(resolve, 1_000));
    }
    return peak;
  };
  const watching = watch();
  return {
    stop: () => {
      isOver = true;
      return watching;
    },
  };
}

function toFigures({ tally, lost, diverged }: LoadResult) {
  return {
    updates: tally.written,
    savedMs: { p50: percentile(tally.savedMs, 0.5), p99: percentile(tally.savedMs, 0.99) },
    seenMs: { p50: percentile(tally.seenMs, 0.5), p99: percentile(tally.seenMs, 0.99) },
    lost,
    diverged,
  };
}

function toWitnessRow(kind: string, result: LoadResult): Row {
  const { updates, savedMs, seenMs, lost, diverged } = toFigures(result);
  const times = `saved p50 ${savedMs.p50} p99 ${savedMs.p99} ms, seen p50 ${seenMs.p50} p99 ${seenMs.p99} ms`;
  return { kind, sent: updates, connections: 60, answers: `${times}, lost ${lost}, diverged ${diverged}` };
}

async function audit(rooms: readonly FurnishedRoom[]) {
  const faults: string[] = [];
  let [entries, records] = [0, 0];
  for (const { pieceId } of rooms) {
    const read = await auditRoomLog(pieceId);
    entries += read.entries;
    records += read.records;
    faults.push(...read.faults);
  }
  // A log of no room at all would be one more fault.
  if ((await database().roomUpdate.count()) !== entries) faults.push("entries outside these rooms");
  return { rooms: rooms.length, entries, records, faults };
}

function toRow([kind, { sent, connections, answers }]: [string, KindCount]): Row {
  const told = [...answers].sort(([, a], [, b]) => b - a).map(([answer, count]) => `${answer} × ${count}`);
  return { kind, sent, connections, answers: told.join(", ") };
}

if (!(await serveRoomsIfAsked())) await attackIfAsked();
