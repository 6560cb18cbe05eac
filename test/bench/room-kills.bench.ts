import { fileURLToPath } from "node:url";
import {
  type FaultServer,
  findFreePort,
  killServer,
  serveFaultsIfAsked,
  startFaultServer,
  stopServer,
} from "./fault-server";
import { FaultStay, until } from "./fault-stay";
import { percentile } from "./percentile";
import { bringRooms } from "./room-people";
import { withThrowAwayDatabase } from "./throw-away-database";

type Row = Record<string, string | number>;

const program = fileURLToPath(import.meta.url);

/** New rooms in each round: a room holds 2,000 breaths. */
const rounds = 10;
const killsARound = 10;
const rooms = 20;
const updatesPerSecond = 700;

/** A burst is cut off somewhere after so many updates were vouched for in it. */
const burst = { least: 450, most: 700 };

/**
 * `kill -9` of the room server in mid-burst, again and again. The same command then starts it on the same port,
 * and the people come back by themselves. After each kill, before the server is back, the logs are read: whatever
 * was acknowledged, or seen by another person, has to be there. In the end everything that was ever written has.
 */
export const benchmark = {
  name: `${rounds * killsARound} times kill -9 of the room server in mid-burst`,
  run: (): Promise<Row[]> =>
    withThrowAwayDatabase(async () => {
      const port = await findFreePort();
      const results: RoundResult[] = [];
      for (let round = 0; round < rounds; round += 1) results.push(await runRound(port));
      return [toRow(results)];
    }),
};

interface RoundResult {
  readonly written: number;
  /** Vouched for before the last kill. */
  readonly vouchedFor: number;
  readonly lost: number;
  /** Written by somebody, and in no log when everybody had time to bring it. */
  readonly missing: number;
  readonly diverged: number;
  /** From each kill to the first acknowledgement of something written after it. */
  readonly backMs: readonly number[];
}

async function runRound(port: number): Promise<RoundResult> {
  let server = await start(port);
  const stay = new FaultStay(server.address, await bringRooms(rooms));
  const lost = new Set<string>();
  const backMs: number[] = [];
  let vouchedFor = 0;
  try {
    await until("everybody is in", () => stay.clients.every(({ isSynced }) => isSynced));
    stay.startWriting(updatesPerSecond);
    for (let kill = 0; kill < killsARound; kill += 1) {
      await untilMidBurst(stay);
      const killedAt = performance.now();
      await killServer(server);
      const back = stay.vouched.untilNextAcknowledged();
      // What had reached them when the server died, they still read.
      await until("everybody is cut off", () => stay.clients.every(({ isConnected }) => !isConnected));
      vouchedFor = stay.vouched.count;
      for (const id of await stay.vouched.findLost()) lost.add(id);
      server = await start(port);
      backMs.push((await back) - killedAt);
    }
    stay.stopWriting();
    return { ...(await settle(stay)), lost: lost.size, vouchedFor, backMs };
  } finally {
    stay.close();
    await stopServer(server);
  }
}

function start(port: number): Promise<FaultServer> {
  return startFaultServer(program, { port, folder: null });
}

async function untilMidBurst(stay: FaultStay): Promise<void> {
  const enough = stay.vouched.count + burst.least + Math.random() * (burst.most - burst.least);
  await until("a burst is under way", () => stay.vouched.count >= enough && stay.unsaved() > 0);
}

/** Waits until everybody has brought everything, and looks at what is there. */
async function settle(stay: FaultStay) {
  await until("everything is acknowledged", () => stay.unsaved() === 0);
  const written = stay.vouched.written;
  const missing = (await stay.vouched.findLost()).length + written - stay.vouched.count;
  await until("everybody sees everything", () => stay.countDiverged() === 0, 20_000).catch(() => {});
  return { written, missing, diverged: stay.countDiverged() };
}

function toRow(results: readonly RoundResult[]): Row {
  const sum = (read: (result: RoundResult) => number) =>
    results.reduce((total, result) => total + read(result), 0);
  const backMs = results.flatMap((result) => result.backMs);
  return {
    kills: backMs.length,
    sockets: rooms * 3,
    written: sum(({ written }) => written),
    "acknowledged or seen": sum(({ vouchedFor }) => vouchedFor),
    lost: sum(({ lost }) => lost),
    "missing in the end": sum(({ missing }) => missing),
    diverged: sum(({ diverged }) => diverged),
    "acknowledging again p50 ms": percentile(backMs, 0.5),
    "acknowledging again max ms": Math.round(Math.max(...backMs)),
  };
}

await serveFaultsIfAsked();
