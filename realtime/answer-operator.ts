import type { IncomingMessage, ServerResponse } from "node:http";
import { z } from "zod";
import { database } from "@/lib/store/database";
import { version } from "@/package.json";
import { mayMeasure } from "./may-measure";
import type { Measurements } from "./measured-rooms";

/** Where rooms are served: by the process that serves the pages, or by others. */
export type RoomsPlace = "here" | "apart";

export interface OperatorOptions {
  readonly rooms: RoomsPlace;
  readonly measurements: Measurements;
  /** What a collector on another machine shows; null when none may ask. */
  readonly metricsToken: string | null;
}

const environmentSchema = z.object({
  COLLA_METRICS_TOKEN: z
    .string()
    .min(16, "COLLA_METRICS_TOKEN has to have at least 16 characters.")
    .optional(),
});

/** @throws ZodError if there is a token that is too short to keep anybody out. */
export function readMetricsToken(environment: Readonly<Record<string, string | undefined>>): string | null {
  const { COLLA_METRICS_TOKEN } = environmentSchema.parse({
    COLLA_METRICS_TOKEN: environment.COLLA_METRICS_TOKEN || undefined,
  });
  return COLLA_METRICS_TOKEN ?? null;
}

/**
 * Answers what an operator asks of a process, under whatever name: `GET /api/health` and `GET /api/metrics`.
 *
 * @returns false, and does nothing, when something else is asked.
 */
export async function answerOperator(
  request: IncomingMessage,
  response: ServerResponse,
  options: OperatorOptions,
): Promise<boolean> {
  const path = (request.url ?? "").split("?")[0];
  if (path !== "/api/health" && path !== "/api/metrics") return false;
  response.setHeader("cache-control", "no-store");
  if (request.method !== "GET" && request.method !== "HEAD")
    response.writeHead(405, { allow: "GET, HEAD" }).end();
  else if (path === "/api/health") await answerHealth(response, options);
  else await answerMetrics(request, response, options);
  return true;
}

/** Whether this process and its database answer. */
async function answerHealth(response: ServerResponse, { rooms }: OperatorOptions): Promise<void> {
  const isUp = await isDatabaseUp();
  response.writeHead(isUp ? 200 : 503, { "content-type": "application/json" });
  response.end(JSON.stringify({ ok: isUp, database: isUp ? "up" : "down", rooms, version }));
}

async function answerMetrics(
  request: IncomingMessage,
  response: ServerResponse,
  { measurements, metricsToken }: OperatorOptions,
): Promise<void> {
  if (mayMeasure(request, metricsToken))
    response.writeHead(200, { "content-type": measurements.contentType }).end(await measurements.text());
  else
    response.writeHead(404, { "content-type": "text/plain; charset=utf-8" }).end("There is nothing here.\n");
}

/** Whoever asks for health waits no longer than this for the database. */
const patienceMs = 3_000;

async function isDatabaseUp(): Promise<boolean> {
  let timer: NodeJS.Timeout | undefined;
  const tooLate = new Promise<false>((resolve) => {
    timer = setTimeout(resolve, patienceMs, false);
  });
  // Why it is down is in the database's log; whoever asks needs only to know that it is so.
  const asked = database().$queryRaw`SELECT 1`.then(
    () => true,
    () => false,
  );
  const isUp = await Promise.race([asked, tooLate]);
  clearTimeout(timer);
  return isUp;
}
