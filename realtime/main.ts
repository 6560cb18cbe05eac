import type { IncomingMessage, ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { fileURLToPath } from "node:url";
import { z } from "zod";
import { closeDatabase } from "@/lib/store/database";
import { answerOperator, type OperatorOptions, readMetricsToken } from "./answer-operator";
import { attachRealtime } from "./attach";
import { closeServer, createBoundedServer, listen } from "./bounded-server";
import { logToStderr, nameFailure } from "./log-line";
import { measureRooms } from "./measured-rooms";

const environmentSchema = z.object({
  PORT: z.coerce.number().int().min(0).max(65535).default(3001),
  HOST: z.string().min(1).default("127.0.0.1"),
  COLLA_TRUST_PROXY: z.enum(["0", "1"]).default("0"),
});

export interface RoomsSettings {
  readonly port: number;
  readonly host: string;
  /** Whether a proxy of ours stands in front, so that the address it reports is the visitor's. */
  readonly trustsProxy: boolean;
  readonly metricsToken: string | null;
}

/** @throws ZodError if the environment does not say where to serve. */
export function readRoomsSettings(environment: NodeJS.ProcessEnv): RoomsSettings {
  const { PORT, HOST, COLLA_TRUST_PROXY } = environmentSchema.parse(environment);
  return {
    port: PORT,
    host: HOST,
    trustsProxy: COLLA_TRUST_PROXY === "1",
    metricsToken: readMetricsToken(environment),
  };
}

export interface RunningRooms {
  readonly port: number;
  /** Closes every socket with everything stored, then stops listening. */
  close(): Promise<void>;
}

/** Nothing but an upgrade and two short questions comes here. */
const requestLimits = { headersMs: 10_000, requestMs: 15_000 } as const;

/**
 * Serves rooms and no pages. Any number of these may share one database; whoever stands in front may send anybody to
 * any of them.
 *
 * @throws ZodError if the environment does not say where the database and the product's pages are.
 */
export async function startRooms(settings: RoomsSettings): Promise<RunningRooms> {
  const measurements = measureRooms();
  const operator: OperatorOptions = { rooms: "apart", measurements, metricsToken: settings.metricsToken };
  const server = createBoundedServer(requestLimits, (request, response) => {
    void answer(request, response, operator);
  });
  const { trustsProxy } = settings;
  const rooms = attachRealtime({ server, path: "/rooms", trustsProxy, metrics: measurements.metrics });
  server.on("upgrade", (request, socket) => {
    // The same addresses as in attach.ts: what is no room is nothing here.
    if (!/^\/rooms(?:[/?]|$)/.test(request.url ?? "")) socket.destroy();
  });
  await listen(server, settings);
  return {
    port: (server.address() as AddressInfo).port,
    close: async () => {
      await rooms.close();
      await closeServer(server);
      await closeDatabase();
    },
  };
}

async function answer(
  request: IncomingMessage,
  response: ServerResponse,
  operator: OperatorOptions,
): Promise<void> {
  try {
    if (await answerOperator(request, response, operator)) return;
    response.writeHead(404, { "content-type": "text/plain; charset=utf-8" }).end("Only rooms are here.\n");
  } catch (error) {
    logToStderr({ what: "not-answered", detail: nameFailure(error) });
    response.destroy();
  }
}

/** Serves until a signal comes: `node dist/realtime.mjs`. */
async function main(): Promise<void> {
  const rooms = await startRooms(readRoomsSettings(process.env));
  console.log(`The rooms of Colla Parte are ready on port ${rooms.port}`);
  for (const signal of ["SIGINT", "SIGTERM"] as const)
    process.once(signal, () => void rooms.close().then(() => process.exit(0)));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await main();
