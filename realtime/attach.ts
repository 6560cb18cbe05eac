import { randomUUID } from "node:crypto";
import type { IncomingMessage, Server } from "node:http";
import type { Duplex } from "node:stream";
import { z } from "zod";
import type { Bus, BusOptions } from "./bus";
import { type Log, logToStderr } from "./log-line";
import { defaultLimits, type RealtimeLimits } from "./realtime-limits";
import { RealtimeNode } from "./realtime-node";
import { noMetrics, type RoomMetrics } from "./room-metrics";

export interface RealtimeOptions {
  readonly server: Server;
  /** Where rooms lie: `<path>/<pieceId>`. Upgrades elsewhere are left to others. */
  readonly path: string;
  /** For notifications; `DATABASE_URL` when left out. */
  readonly databaseUrl?: string;
  /** The address people open; `NEXTAUTH_URL` when left out. */
  readonly publicUrl?: string;
  /** Whether a proxy of ours stands in front, so that the address it reports is the visitor's. */
  readonly trustsProxy?: boolean;
  readonly limits?: Partial<RealtimeLimits>;
  readonly log?: Log;
  readonly metrics?: RoomMetrics;
  /** Opens the node's ear; a test may open one that is hard of hearing. */
  readonly openBus?: (options: BusOptions) => Bus;
}

export interface Realtime {
  /** Settles when notifications of other processes are heard. Rooms work before that. */
  whenListening(): Promise<void>;
  /**
   * Closes every socket and waits until everything accepted is stored. Whoever still asks for a room of this server
   * is told to come back later: left without an answer, they would keep it from ending.
   */
  close(): Promise<void>;
}

const environmentSchema = z.object({
  DATABASE_URL: z.string().min(1),
  NEXTAUTH_URL: z.url({ protocol: /^https?$/ }),
});

/**
 * Serves the rooms of all pieces on an HTTP server (protocol.ts says what is spoken there).
 *
 * @throws ZodError if neither the options nor the environment say where the database and the product are.
 */
export function attachRealtime(options: RealtimeOptions): Realtime {
  const { server, path } = options;
  const environment = environmentSchema.parse({
    DATABASE_URL: options.databaseUrl ?? process.env.DATABASE_URL,
    NEXTAUTH_URL: options.publicUrl ?? process.env.NEXTAUTH_URL,
  });
  const node = new RealtimeNode({
    name: randomUUID(),
    path,
    databaseUrl: environment.DATABASE_URL,
    publicUrl: new URL(environment.NEXTAUTH_URL),
    trustsProxy: options.trustsProxy ?? false,
    limits: { ...defaultLimits, ...options.limits },
    log: options.log ?? logToStderr,
    metrics: options.metrics ?? noMetrics,
    openBus: options.openBus,
  });
  const onUpgrade = (request: IncomingMessage, socket: Duplex, head: Buffer) => {
    const address = (request.url ?? "").split("?")[0] ?? "";
    if (address === path || address.startsWith(`${path}/`)) void node.receive(request, socket, head);
  };
  server.on("upgrade", onUpgrade);
  return {
    whenListening: () => node.whenListening(),
    close: () => node.close(),
  };
}
