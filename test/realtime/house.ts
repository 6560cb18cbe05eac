import { randomUUID } from "node:crypto";
import http from "node:http";
import type { AddressInfo } from "node:net";
import { startSession } from "@/lib/store/auth/session";
import { closeDatabase, database } from "@/lib/store/database";
import type { MemberRole } from "@/lib/store/who-may";
import { attachRealtime, type Realtime, type RealtimeOptions } from "@/realtime/attach";
import type { LogLine } from "@/realtime/log-line";
import type { RealtimeLimits } from "@/realtime/realtime-limits";
import { createFreshDatabase } from "@/test/setup/fresh-database";

export const publicUrl = "http://colla.test";

/** Someone with an account who is signed in. */
export interface Guest {
  readonly userId: string;
  readonly name: string;
  readonly token: string;
  readonly cookie: string;
}

/** A running server with rooms on it. */
export interface RunningNode {
  /** Where rooms lie, for a y-websocket client. */
  readonly url: string;
  readonly log: LogLine[];
  /** Waits for a line of the log. */
  untilLogged(isMeant: (line: LogLine) => boolean): Promise<void>;
  readonly rooms: Realtime;
  readonly server: http.Server;
  stop(): Promise<void>;
}

/** Opens a database of its own for one test file; everything is taken down by `close`. */
export async function openHouse() {
  const fresh = await createFreshDatabase();
  process.env.DATABASE_URL = fresh.url;
  const nodes = new Set<RunningNode>();
  return {
    databaseUrl: fresh.url,
    startNode: async (
      limits: Partial<RealtimeLimits> = {},
      port = 0,
      options: Partial<RealtimeOptions> = {},
    ) => {
      const node = await startNode({ databaseUrl: fresh.url, ...options, limits }, port);
      nodes.add(node);
      return node;
    },
    close: async () => {
      await Promise.all([...nodes].map((node) => node.stop()));
      await closeDatabase();
      await fresh.drop();
    },
  };
}

async function startNode(options: Partial<RealtimeOptions>, port: number): Promise<RunningNode> {
  const server = http.createServer((_request, response) => response.end("up"));
  const log: LogLine[] = [];
  const watchers = new Set<(line: LogLine) => void>();
  const rooms = attachRealtime({
    server,
    path: "/rooms",
    publicUrl,
    ...options,
    log: (line) => {
      log.push(line);
      for (const watch of watchers) watch(line);
    },
  });
  await new Promise<void>((resolve) => server.listen(port, "127.0.0.1", resolve));
  await rooms.whenListening();
  let stopping: Promise<void> | null = null;
  const stop = async () => {
    await rooms.close();
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
  };
  return {
    url: `ws://127.0.0.1:${(server.address() as AddressInfo).port}/rooms`,
    log,
    untilLogged: (isMeant) =>
      new Promise((resolve) => {
        const watch = (line: LogLine) => {
          if (isMeant(line)) resolve();
        };
        watchers.add(watch);
        log.forEach(watch);
      }),
    rooms,
    server,
    stop: () => {
      stopping ??= stop();
      return stopping;
    },
  };
}

/** A signed-in person. */
export async function bringGuest(name: string): Promise<Guest> {
  const user = await database().user.create({
    data: { email: `${randomUUID()}@colla.test`, name, passwordHash: "none" },
  });
  const { token } = await startSession(user.id);
  return { userId: user.id, name, token, cookie: `next-auth.session-token=${token}` };
}

/** A piece and its members. */
export async function bringPiece(members: Readonly<Partial<Record<MemberRole, Guest>>>): Promise<string> {
  const piece = await database().piece.create({ data: { title: "Concertino", tempo: {} } });
  for (const [role, guest] of Object.entries(members)) {
    await database().member.create({
      data: { pieceId: piece.id, userId: guest.userId, role: role as MemberRole },
    });
  }
  return piece.id;
}
