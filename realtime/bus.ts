import pg from "pg";
import { z } from "zod";
import { type Log, nameFailure } from "./log-line";

const schemas = {
  room_appended: z.object({ pieceId: z.string(), sequence: z.int(), node: z.string() }),
  piece_changed: z.object({ pieceId: z.string(), what: z.string() }),
  session_ended: z.object({ userId: z.string() }),
  member_removed: z.object({ pieceId: z.string(), userId: z.string() }),
} as const;

type Channel = keyof typeof schemas;

/** What comes over Postgres NOTIFY: hints only. What they hint at stands in the tables. */
export type BusMessage = { [C in Channel]: { channel: C } & z.infer<(typeof schemas)[C]> }[Channel];

export interface BusOptions {
  readonly databaseUrl: string;
  readonly onMessage: (message: BusMessage) => void;
  /** Listening again after an interruption: anything may have been missed. */
  readonly onReturn: () => void;
  readonly log: Log;
}

const firstWaitMs = 100;
const longestWaitMs = 5_000;
const silenceMs = 10_000;

const announcement = "SELECT pg_notify('room_appended', payload) FROM unnest($1::text[]) AS payload";

/** One connection of its own that listens, and comes back when it breaks. */
export class Bus {
  #client: pg.Client | null = null;
  #isClosed = false;
  #timer: NodeJS.Timeout | null = null;
  #waitMs = firstWaitMs;
  #hasListened = false;
  readonly #toAnnounce = new Map<string, number>();
  #isAnnouncing = false;
  readonly #ready: Promise<void>;
  #tellReady: () => void = () => {};

  constructor(private readonly options: BusOptions) {
    this.#ready = new Promise((resolve) => {
      this.#tellReady = resolve;
    });
    void this.#connect();
  }

  /** Settles when it listens for the first time. */
  whenListening(): Promise<void> {
    return this.#ready;
  }

  /** Tells the other nodes where logs now end. What cannot be said is found in the log. */
  announce(node: string, entries: readonly { pieceId: string; sequence: number }[]): void {
    for (const { pieceId, sequence } of entries) this.#toAnnounce.set(pieceId, sequence);
    if (!this.#isAnnouncing) void this.#announceAll(node);
  }

  /** One statement at a time: what comes meanwhile is said together, of each room only the last. */
  async #announceAll(node: string): Promise<void> {
    this.#isAnnouncing = true;
    for (let client = this.#client; client && this.#toAnnounce.size > 0; client = this.#client) {
      const payloads = [...this.#toAnnounce].map(([pieceId, sequence]) =>
        JSON.stringify({ pieceId, sequence, node }),
      );
      this.#toAnnounce.clear();
      await client.query(announcement, [payloads]).catch(() => {});
    }
    this.#toAnnounce.clear();
    this.#isAnnouncing = false;
  }

  /** Asks the server for a sign of life; a connection that gives none is replaced. */
  async probe(): Promise<void> {
    const client = this.#client;
    if (client === null) return;
    await client.query("SELECT 1").catch((error: unknown) => this.#lose(client, error));
  }

  async close(): Promise<void> {
    this.#isClosed = true;
    if (this.#timer) clearTimeout(this.#timer);
    const client = this.#client;
    this.#client = null;
    await client?.end().catch(() => {});
  }

  async #connect(): Promise<void> {
    const client = new pg.Client({
      connectionString: this.options.databaseUrl,
      application_name: "colla-parte rooms",
      connectionTimeoutMillis: silenceMs,
      query_timeout: silenceMs,
      keepAlive: true,
    });
    this.#client = client;
    client.on("error", (error) => this.#lose(client, error));
    client.on("end", () => this.#lose(client, null));
    client.on("notification", ({ channel, payload }) => this.#receive(channel, payload ?? ""));
    try {
      await client.connect();
      for (const channel of Object.keys(schemas)) await client.query(`LISTEN ${channel}`);
      this.#listens();
    } catch (error) {
      this.#lose(client, error);
    }
  }

  #listens(): void {
    this.#waitMs = firstWaitMs;
    if (this.#hasListened) this.options.onReturn();
    this.#hasListened = true;
    this.#tellReady();
  }

  /** Each client is given up once, whichever of its events comes first. */
  #lose(client: pg.Client, error: unknown): void {
    if (this.#client !== client) return;
    this.#client = null;
    client.end().catch(() => {});
    if (this.#isClosed) return;
    this.options.log({ what: "bus-lost", detail: nameFailure(error) });
    this.#timer = setTimeout(() => void this.#connect(), this.#waitMs);
    this.#waitMs = Math.min(this.#waitMs * 2, longestWaitMs);
  }

  #receive(channel: string, payload: string): void {
    const message = readMessage(channel, payload);
    if (message) this.options.onMessage(message);
    else this.options.log({ what: "bus-unreadable", detail: channel });
  }
}

function readMessage(channel: string, payload: string): BusMessage | null {
  if (!Object.hasOwn(schemas, channel)) return null;
  try {
    const parsed = schemas[channel as Channel].safeParse(JSON.parse(payload));
    // The channel decides which schema was used, so the two belong together.
    return parsed.success ? ({ channel, ...parsed.data } as BusMessage) : null;
  } catch {
    return null;
  }
}
