import { type ChildProcess, fork } from "node:child_process";
import { once } from "node:events";
import http from "node:http";
import net, { type AddressInfo } from "node:net";
import path from "node:path";
import { z } from "zod";
import { root } from "@/app/_commands/folders.mjs";
import { keepEmbeddedPostgres } from "@/prisma/embedded/keep-embedded-postgres.mjs";
import { migrate } from "@/prisma/migrate.mjs";
import { attachRealtime } from "@/realtime/attach";
import { origin } from "./room-servers";

/** The variable of the environment that makes a benchmark's program serve rooms instead of measuring. */
const variable = "COLLA_BENCH_FAULTS";

const orderSchema = z.object({
  port: z.int(),
  /** Where the server's own Postgres keeps its data; null: `DATABASE_URL` names another. */
  folder: z.string().nullable(),
});

export type ServerOrder = z.infer<typeof orderSchema>;

/** What a server says once it serves. */
const servingSchema = z.object({ databaseUrl: z.string() });

/** Starts the room server in a process of its own. */
export async function startFaultServer(program: string, order: ServerOrder): Promise<FaultServer> {
  const child = fork(program, { env: { ...process.env, [variable]: JSON.stringify(order) } });
  const ended = once(child, "exit").then(() => Promise.reject(new Error("the server did not come up")));
  const [message] = await Promise.race([once(child, "message"), ended]);
  ended.catch(() => {});
  const address = `ws://127.0.0.1:${order.port}/rooms`;
  return { child, address, ...servingSchema.parse(message) };
}

export interface FaultServer {
  readonly child: ChildProcess;
  /** Rooms lie at `<address>/<pieceId>`. */
  readonly address: string;
  readonly databaseUrl: string;
}

/** Ends a server as a crash would, and waits until it is gone. */
export async function killServer({ child }: FaultServer): Promise<void> {
  const ended = once(child, "exit");
  child.kill("SIGKILL");
  await ended;
}

export async function stopServer({ child }: FaultServer): Promise<void> {
  const ended = once(child, "exit");
  child.kill("SIGTERM");
  await ended;
}

export async function findFreePort(): Promise<number> {
  const probe = net.createServer().listen(0, "127.0.0.1");
  await once(probe, "listening");
  const { port } = probe.address() as AddressInfo;
  await new Promise((resolve) => probe.close(resolve));
  return port;
}

/** Serves rooms when this process was forked for it. @returns whether it was. */
export async function serveFaultsIfAsked(): Promise<boolean> {
  const order = process.env[variable];
  if (order === undefined || !process.send) return false;
  const { port, folder } = orderSchema.parse(JSON.parse(order));
  const stopDatabase = folder === null ? async () => {} : await keepDatabase(folder);
  const server = http.createServer();
  const rooms = attachRealtime({
    server,
    path: "/rooms",
    publicUrl: origin,
    // A program plays the people, and faster than they would.
    limits: { messagesPerSecond: 10_000, messageBurst: 10_000 },
    log: () => {},
  });
  server.listen(port, "127.0.0.1");
  await Promise.all([once(server, "listening"), rooms.whenListening()]);
  process.send({ databaseUrl: process.env.DATABASE_URL });
  // Whoever started it may be killed too.
  process.once("disconnect", () => process.exit(1));
  process.once("SIGTERM", () => {
    void rooms
      .close()
      .then(stopDatabase)
      .then(() => process.exit(0));
  });
  return true;
}

/** The embedded Postgres as the product's start keeps it. */
async function keepDatabase(folder: string): Promise<() => Promise<void>> {
  const giveUp = (error: unknown) => {
    console.error(error);
    process.exit(1);
  };
  const postgres = await keepEmbeddedPostgres({ folder, tell: () => {}, onGivenUp: giveUp });
  process.env.DATABASE_URL = postgres.url;
  await migrate(postgres.url, path.join(root, "prisma/migrations"));
  return postgres.stop;
}
