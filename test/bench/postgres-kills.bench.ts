import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { closeDatabase } from "@/lib/store/database";
import { readPostmaster } from "@/prisma/embedded/postmaster.mjs";
import { startEmbeddedPostgres } from "@/prisma/embedded/start-embedded-postgres.mjs";
import { findFreePort, serveFaultsIfAsked, startFaultServer, stopServer } from "./fault-server";
import { FaultStay, until } from "./fault-stay";
import { percentile } from "./percentile";
import { bringRooms } from "./room-people";

type Row = Record<string, string | number>;

const program = fileURLToPath(import.meta.url);

const kills = 25;
const rooms = 20;
const updatesPerSecond = 300;

/** So many updates are vouched for between two kills. */
const between = 400;

/**
 * `kill -9` of the embedded Postgres under load, again and again, with the server that keeps it going on. What was
 * acknowledged before has to be in the log after, at the very entry that the acknowledgement named.
 */
export const benchmark = {
  name: `${kills} times kill -9 of the embedded Postgres under load`,
  async run(): Promise<Row[]> {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), "colla-bench-"));
    fs.chmodSync(folder, 0o711);
    const server = await startFaultServer(program, {
      port: await findFreePort(),
      folder: path.join(folder, "database"),
    });
    process.env.DATABASE_URL = server.databaseUrl;
    // Attached to only for where it keeps its data.
    const { base } = await startEmbeddedPostgres({ folder: path.join(folder, "database") });
    try {
      return [await killAgainAndAgain(server.address, path.join(base, "postgres"))];
    } finally {
      await closeDatabase();
      await stopServer(server);
      for (const used of new Set([folder, base])) fs.rmSync(used, { recursive: true, force: true });
    }
  },
};

async function killAgainAndAgain(address: string, data: string): Promise<Row> {
  const stay = new FaultStay(address, await bringRooms(rooms));
  const lost = new Set<string>();
  const backMs: number[] = [];
  let vouchedFor = 0;
  try {
    await until("everybody is in", () => stay.clients.every(({ isSynced }) => isSynced));
    stay.startWriting(updatesPerSecond);
    for (let kill = 0; kill < kills; kill += 1) {
      const enough = stay.vouched.count + between;
      await until("a burst is under way", () => stay.vouched.count >= enough && stay.unsaved() > 0);
      vouchedFor = stay.vouched.count;
      backMs.push(await killOnce(stay, data));
      for (const id of await stay.vouched.findLost()) lost.add(id);
    }
    stay.stopWriting();
    await until("everything is acknowledged", () => stay.unsaved() === 0);
    const missing = (await stay.vouched.findLost()).length + stay.vouched.written - stay.vouched.count;
    await until("everybody sees everything", () => stay.countDiverged() === 0, 20_000).catch(() => {});
    return {
      kills,
      sockets: rooms * 3,
      written: stay.vouched.written,
      "acknowledged or seen": vouchedFor,
      lost: lost.size,
      "missing in the end": missing,
      diverged: stay.countDiverged(),
      "acknowledging again p50 ms": percentile(backMs, 0.5),
      "acknowledging again max ms": Math.round(Math.max(...backMs)),
    };
  } finally {
    stay.close();
  }
}

/**
 * @returns milliseconds from the kill to the first acknowledgement of something that was written when the next
 * Postgres ran: the children of the one that was killed may still store what they are at.
 */
async function killOnce(stay: FaultStay, data: string): Promise<number> {
  const killed = readPostmaster(data);
  if (!killed) throw new Error("no Postgres runs");
  const killedAt = performance.now();
  process.kill(killed.pid, "SIGKILL");
  await until("the next Postgres runs", () => {
    const next = readPostmaster(data);
    return next !== null && next.pid !== killed.pid && next.state === "ready";
  });
  return (await stay.vouched.untilNextAcknowledged()) - killedAt;
}

await serveFaultsIfAsked();
