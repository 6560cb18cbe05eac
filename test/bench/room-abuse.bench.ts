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
};

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
  return [
    {
      kind: "all together",
      sent: [...counts.values()].reduce((sum, { sent }) => sum + sent, 0),
      connections: [...counts.values()].reduce((sum, { connections }) => sum + connections, 0),
      answers: `${counts.size} kinds in ${seconds.toFixed(0)} s, server ${hasEnded(server.child) ? "DEAD" : "alive"}`,
    },
    ...toWitnessRows(calm, meanwhile),
    {
      kind: "memory of the server",
      answers: `RSS ${before.toFixed(0)} MB before, ${peak.toFixed(0)} at most, ${after.toFixed(0)} after`,
    },
    await audit([...witnesses, ...abused]),
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

function toWitnessRows(calm: LoadResult, meanwhile: LoadResult): Row[] {
  return [
    { kind: "other rooms, calm", result: calm },
    { kind: "other rooms, meanwhile", result: meanwhile },
  ].map(({ kind, result: { tally, lost, diverged } }) => ({
    kind,
    sent: tally.written,
    connections: 60,
    answers: [
      `saved p50 ${percentile(tally.savedMs, 0.5)} p99 ${percentile(tally.savedMs, 0.99)} ms`,
      `seen p50 ${percentile(tally.seenMs, 0.5)} p99 ${percentile(tally.seenMs, 0.99)} ms`,
      `lost ${lost}`,
      `diverged ${diverged}`,
    ].join(", "),
  }));
}

async function audit(rooms: readonly FurnishedRoom[]): Promise<Row> {
  const faults: string[] = [];
  let [entries, records] = [0, 0];
  for (const { pieceId } of rooms) {
    const read = await auditRoomLog(pieceId);
    entries += read.entries;
    records += read.records;
    faults.push(...read.faults);
  }
  const inDatabase = await database().roomUpdate.count();
  return {
    kind: "logs read again",
    sent: entries,
    connections: rooms.length,
    answers: `${records} records of ${inDatabase} entries, ${faults.length} faults ${faults.slice(0, 3).join("; ")}`,
  };
}

function toRow([kind, { sent, connections, answers }]: [string, KindCount]): Row {
  const told = [...answers].sort(([, a], [, b]) => b - a).map(([answer, count]) => `${answer} × ${count}`);
  return { kind, sent, connections, answers: told.join(", ") };
}

if (!(await serveRoomsIfAsked())) await attackIfAsked();
