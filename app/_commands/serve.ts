import http from "node:http";
import type { AddressInfo } from "node:net";
import { fileURLToPath } from "node:url";
import next from "next";
import { z } from "zod";
import { findRefusal, pinForwardedHeaders } from "@/app/_commands/public-address";
import { contentSecurityPolicy, makeNonce, securityHeaders } from "@/app/_commands/security-headers";
import { startPurges } from "@/app/_commands/start-purges";
import { foreignRoomsAddress } from "@/app/_data/rooms-address";
import { type MailSettings, readMailSettings } from "@/app/_mail/read-mail-settings";
import { startDigests } from "@/app/_mail/start-digests";
import { closeDatabase } from "@/lib/store/database";
import { answerOperator, type RoomsPlace, readMetricsToken } from "@/realtime/answer-operator";
import { attachRealtime } from "@/realtime/attach";
import { closeServer, createBoundedServer, listen } from "@/realtime/bounded-server";
import { type Measurements, measureRooms } from "@/realtime/measured-rooms";

const environmentSchema = z.object({
  PORT: z.coerce.number().int().min(0).max(65535).default(3000),
  HOST: z.string().min(1).default("127.0.0.1"),
  NEXTAUTH_URL: z.url({ protocol: /^https?$/ }),
  COLLA_TRUST_PROXY: z.enum(["0", "1"]).default("0"),
  COLLA_ROOMS: z.enum(["here", "apart"]).default("here"),
});

export interface ServeSettings {
  readonly port: number;
  readonly host: string;
  /** The one address people use; everything else is refused. */
  readonly publicUrl: URL;
  /** Whether a proxy of ours stands in front, so that the address it reports is the visitor's. */
  readonly trustsProxy: boolean;
  readonly isDevelopment: boolean;
  /** Whether rooms are served by this process too, or by others (`npm run realtime`). */
  readonly rooms: RoomsPlace;
  readonly metricsToken: string | null;
  /** Where rooms lie when they lie elsewhere: pages may connect there and nowhere else. */
  readonly roomsOrigin: string | null;
  readonly mail: MailSettings;
}

/** @throws ZodError if the environment does not say where to serve. */
export function readServeSettings(environment: NodeJS.ProcessEnv): ServeSettings {
  const { PORT, HOST, NEXTAUTH_URL, COLLA_TRUST_PROXY, COLLA_ROOMS } = environmentSchema.parse({
    ...environment,
    COLLA_ROOMS: environment.COLLA_ROOMS || undefined,
  });
  return {
    port: PORT,
    host: HOST,
    publicUrl: new URL(NEXTAUTH_URL),
    trustsProxy: COLLA_TRUST_PROXY === "1",
    isDevelopment: environment.NODE_ENV === "development",
    rooms: COLLA_ROOMS,
    metricsToken: readMetricsToken(environment),
    roomsOrigin: readRoomsOrigin(environment),
    mail: readMailSettings(environment),
  };
}

function readRoomsOrigin(environment: NodeJS.ProcessEnv): string | null {
  const address = foreignRoomsAddress(environment);
  return address && new URL(address).origin;
}

export interface RunningServer {
  readonly port: number;
  /** Lets requests end, closes rooms with everything stored, then stops listening. */
  close(): Promise<void>;
}

/** A large file over a slow line takes its time; headers do not. */
const requestLimits = { headersMs: 15_000, requestMs: 300_000 } as const;

/** Pages, actions and, unless they are served apart, rooms on one port. */
export async function startServer(settings: ServeSettings): Promise<RunningServer> {
  // Next adds its own upgrade listener to the server it is given; ours decides who gets which upgrade.
  const nextUpgrades = http.createServer();
  const pages = next({
    dev: settings.isDevelopment,
    hostname: settings.publicUrl.hostname,
    port: settings.port,
    httpServer: nextUpgrades,
    quiet: true,
  });
  await pages.prepare();
  const handle = pages.getRequestHandler();
  const measurements = measureRooms();
  const server = createBoundedServer(requestLimits, (request, response) => {
    void answer(request, response, { settings, measurements, handle });
  });
  const { trustsProxy } = settings;
  const rooms =
    settings.rooms === "here"
      ? attachRealtime({ server, path: "/rooms", trustsProxy, metrics: measurements.metrics })
      : null;
  server.on("upgrade", (request, socket, head) => {
    const pathname = pathOf(request);
    if (rooms && (pathname === "/rooms" || pathname.startsWith("/rooms/"))) return;
    if (settings.isDevelopment && pathname.startsWith("/_next/"))
      nextUpgrades.emit("upgrade", request, socket, head);
    else socket.destroy();
  });
  await listen(server, settings);
  const digests = startDigests(settings.mail);
  const purges = startPurges();
  return {
    port: (server.address() as AddressInfo).port,
    close: async () => {
      await digests.stop();
      await purges.stop();
      await rooms?.close();
      await closeServer(server);
      await pages.close();
      await closeDatabase();
    },
  };
}

/** What is asked for, without its query. Not read as an address: anybody may send what is none. */
function pathOf({ url = "/" }: http.IncomingMessage): string {
  return url.split("?", 1)[0] ?? "/";
}

interface Answering {
  readonly settings: ServeSettings;
  readonly measurements: Measurements;
  /** Answers with pages and actions. */
  readonly handle: (request: http.IncomingMessage, response: http.ServerResponse) => Promise<void>;
}

async function answer(
  request: http.IncomingMessage,
  response: http.ServerResponse,
  { settings, measurements, handle }: Answering,
): Promise<void> {
  const nonce = makeNonce();
  const policy = contentSecurityPolicy(nonce, settings);
  for (const [name, value] of securityHeaders(policy, settings.publicUrl, pathOf(request)))
    response.setHeader(name, value);
  if (await answerOperator(request, response, { ...settings, measurements })) return;
  const refusal = findRefusal(request, settings.publicUrl);
  if (refusal) {
    response.writeHead(refusal.status, refusal.headers).end(refusal.sentence);
    return;
  }
  pinForwardedHeaders(request, settings);
  // Next reads the nonce for its own scripts from the policy on the request.
  request.headers["content-security-policy"] = policy;
  await handle(request, response);
}

/** Serves until a signal comes: `node dist/serve.mjs`, for a database that is kept elsewhere. */
async function main(): Promise<void> {
  const settings = readServeSettings(process.env);
  const server = await startServer(settings);
  console.log(`Colla Parte is ready at ${settings.publicUrl.origin}`);
  for (const signal of ["SIGINT", "SIGTERM"] as const)
    process.once(signal, () => void server.close().then(() => process.exit(0)));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await main();
