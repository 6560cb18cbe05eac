import { fileURLToPath } from "node:url";
import { guestsIn, type MemoryVisits, visitAgainAndAgain } from "./memory-visits";
import { bringRooms } from "./room-people";
import { type RoomServer, serveRoomsIfAsked, startRoomServer, type Usage } from "./room-servers";
import { withThrowAwayDatabase } from "./throw-away-database";

type Row = Record<string, string | number>;

interface Sample extends Usage {
  readonly at: string;
  readonly visits: number;
}

const program = fileURLToPath(import.meta.url);

const minutes = Number(process.env.COLLA_BENCH_MINUTES ?? 10);
const sampleMs = 5_000;
const rooms = 1_000;
/** Part of the whole time after which memory counts, and how long it is then looked at. */
const warmUpPart = 0.2;
const lookPart = 0.1;

/** A room goes soon after it is left, so that every visit opens it anew. */
const limits = { idleRoomMs: 250 };

let samples: Sample[] = [];

/**
 * A thousand rooms that people enter, write in and leave, again and again: the server's memory after it warmed up
 * and at the end. `COLLA_BENCH_MINUTES` makes it shorter than ten minutes.
 */
export const benchmark = {
  name: "Memory of the room server, a thousand rooms opened and closed again and again",
  run: (): Promise<Row[]> =>
    withThrowAwayDatabase(async () => {
      const server = await startRoomServer(program, limits, ["--expose-gc"]);
      try {
        return await measure(server);
      } finally {
        await server.stop();
      }
    }),
  details: () => ({ samples }),
};

async function measure(server: RoomServer): Promise<Row[]> {
  const start = performance.now();
  const warm = start + minutes * 60_000 * warmUpPart;
  const end = start + minutes * 60_000;
  const visits = visitAgainAndAgain({
    address: server.address,
    rooms: await bringRooms(rooms, guestsIn),
    isOver: () => performance.now() > end,
  });
  samples = await sampleUntil(warm, server, visits);
  const early = await server.collected();
  samples.push(...(await sampleUntil(end, server, visits)));
  const late = await server.collected();
  await visits.done;
  // Whatever still lies in rooms that were just left is let go of.
  await new Promise((resolve) => setTimeout(resolve, limits.idleRoomMs * 8));
  const empty = await server.collected();
  const [rssEarly, rssLate] = [
    meanResident(warmUpPart, warmUpPart + lookPart),
    meanResident(1 - lookPart, 1),
  ];
  const change = (rssLate / rssEarly - 1) * 100;
  return [
    {
      minutes,
      visits: visits.count(),
      failed: visits.failed(),
      "RSS after warm-up MB": round(rssEarly),
      "RSS at the end MB": round(rssLate),
      "change %": Number(change.toFixed(1)),
      "flat ± 10 %": Math.abs(change) <= 10 ? "yes" : "no",
      "heap collected, early MB": round(early.heapMegabytes),
      "heap collected, late MB": round(late.heapMegabytes),
      "heap when all left MB": round(empty.heapMegabytes),
    },
  ];
}

/** Looks every five seconds, at memory as it is. */
async function sampleUntil(end: number, server: RoomServer, visits: MemoryVisits): Promise<Sample[]> {
  const taken: Sample[] = [];
  while (performance.now() < end) {
    await new Promise((resolve) => setTimeout(resolve, Math.min(sampleMs, end - performance.now())));
    taken.push({ at: new Date().toISOString(), visits: visits.count(), ...(await server.usage()) });
  }
  return taken;
}

/** The mean of the samples from one part of the time to another, in megabytes. */
function meanResident(from: number, to: number): number {
  const meant = samples.slice(Math.floor(samples.length * from), Math.ceil(samples.length * to));
  return meant.reduce((sum, { residentMegabytes }) => sum + residentMegabytes, 0) / meant.length;
}

function round(value: number): number {
  return Number(value.toFixed(1));
}

await serveRoomsIfAsked();
