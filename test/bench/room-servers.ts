import { type ChildProcess, fork } from "node:child_process";
import { once } from "node:events";
import http from "node:http";
import type { AddressInfo } from "node:net";
import path from "node:path";
import { root } from "@/app/_commands/folders.mjs";
import { attachRealtime } from "@/realtime/attach";
import type { RealtimeLimits } from "@/realtime/realtime-limits";

/** Where people are told that the rooms lie. */
export const origin = "http://rooms.test";

/** What a process has used: milliseconds of processor time, megabytes in memory. */
export interface Usage {
  readonly processorMs: number;
  readonly residentMegabytes: number;
  readonly heapMegabytes: number;
}

/** A room server in a process of its own. */
export interface RoomServer {
  readonly child: ChildProcess;
  /** Rooms lie at `<address>/<pieceId>`. */
  readonly address: string;
  usage(): Promise<Usage>;
  /** The same after the heap was collected, for a server started with `--expose-gc`. */
  collected(): Promise<Usage>;
  stop(): Promise<void>;
}

/** The variable of the environment that makes a benchmark's program serve rooms instead of measuring. */
const serverLimits = "COLLA_BENCH_ROOMS";

/** The product is started so too: memory is collected on one thread beside the main one, not on four. */
const asServed = ["--v8-pool-size=1"];

/**
 * Starts the product's room server.
 *
 * @param program the benchmark's own program, which calls `serveRoomsIfAsked`.
 * @param limits where the load is not what a person may do.
 */
export function startRoomServer(
  program: string,
  limits: Partial<RealtimeLimits> = {},
  execArgv: readonly string[] = [],
): Promise<RoomServer> {
  const env = { ...process.env, [serverLimits]: JSON.stringify(limits) };
  return bringUp(fork(program, { env, execArgv: [...asServed, ...execArgv] }));
}

/** Starts the server that y-websocket 2 brings along: rooms in memory, no check, nothing stored. */
export function startInMemoryServer(): Promise<RoomServer> {
  return bringUp(fork(path.join(root, "test/bench/in-memory-server.mjs")));
}

async function bringUp(child: ChildProcess): Promise<RoomServer> {
  const [address] = (await heard(child)) as [string];
  const ask = async (question: "usage" | "collected") => {
    child.send(question);
    const [usage] = (await heard(child)) as [Usage];
    return usage;
  };
  return {
    child,
    address,
    usage: () => ask("usage"),
    collected: () => ask("collected"),
    stop: async () => {
      if (hasEnded(child)) return;
      child.kill("SIGTERM");
      await once(child, "exit");
    },
  };
}

/** What the process says next. @throws when it ends instead. */
function heard(child: ChildProcess): Promise<unknown[]> {
  const ended = new AbortController();
  const giveUp = () => ended.abort(new Error("a server of the benchmark ended"));
  child.once("exit", giveUp);
  return once(child, "message", { signal: ended.signal }).finally(() => child.off("exit", giveUp));
}

export function hasEnded(child: ChildProcess): boolean {
  return child.exitCode !== null || child.signalCode !== null;
}

/** Serves rooms when this process was forked for it. @returns whether it was. */
export async function serveRoomsIfAsked(): Promise<boolean> {
  const limits = process.env[serverLimits];
  if (limits === undefined || !process.send) return false;
  const server = http.createServer();
  const rooms = attachRealtime({
    server,
    path: "/rooms",
    publicUrl: origin,
    limits: JSON.parse(limits) as Partial<RealtimeLimits>,
    log: () => {},
  });
  server.listen(0, "127.0.0.1");
  await Promise.all([once(server, "listening"), rooms.whenListening()]);
  process.send(`ws://127.0.0.1:${(server.address() as AddressInfo).port}/rooms`);
  process.on("message", (question) => {
    if (question === "collected") globalThis.gc?.();
    process.send?.(readUsage());
  });
  process.once("SIGTERM", () => void rooms.close().then(() => process.exit(0)));
  return true;
}

function readUsage(): Usage {
  const { user, system } = process.cpuUsage();
  const { rss, heapUsed } = process.memoryUsage();
  return {
    processorMs: (user + system) / 1000,
    residentMegabytes: rss / 2 ** 20,
    heapMegabytes: heapUsed / 2 ** 20,
  };
}
