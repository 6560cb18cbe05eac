import pg from "pg";
import { type BusMessage, busChannels, readBusMessage } from "./bus-message";
import { type Log, nameFailure } from "./log-line";
import { type Note, Outbox } from "./outbox";
import { startOfPayload } from "./pack-payloads";
import type { PeopleNews } from "./people-news";

export interface BusOptions {
  /** Tells this process from the others that share the database. */
  readonly name: string;
  readonly databaseUrl: string;
  readonly onMessage: (message: BusMessage) => void;
  /** Listening again after an interruption: anything may have been missed. */
  readonly onReturn: () => void;
  readonly log: Log;
}

const firstWaitMs = 100;
const longestWaitMs = 5_000;
const silenceMs = 10_000;

const sayAll =
  "SELECT pg_notify(channel, payload) FROM unnest($1::text[], $2::text[]) AS note(channel, payload)";

/** One connection of its own that listens, and comes back when it breaks. */
export class Bus {
  #client: pg.Client | null = null;
  #isClosed = false;
  #timer: NodeJS.Timeout | null = null;
  #waitMs = firstWaitMs;
  #hasListened = false;
  readonly #outbox: Outbox;
  readonly #ownStart: string;
  #isSaying = false;
  /** Settles when what is being said is said. */
  #saying: Promise<void> = Promise.resolve();
  readonly #ready: Promise<void>;
  #tellReady: () => void = () => {};

  constructor(private readonly options: BusOptions) {
    this.#outbox = new Outbox(options.name);
    this.#ownStart = startOfPayload(options.name);
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
  announce(entries: readonly { pieceId: string; sequence: number }[]): void {
    for (const { pieceId, sequence } of entries) this.#outbox.putEnd(pieceId, sequence);
    this.#say();
  }

  /** Tells the other nodes who is where. What cannot be said is repeated later. */
  tellPeople(news: PeopleNews): void {
    this.#outbox.putPeople(news);
    this.#say();
  }

  /** Asks the server for a sign of life; a connection that gives none is replaced. */
  async probe(): Promise<void> {
    const client = this.#client;
    if (client === null) return;
    await client.query("SELECT 1").catch((error: unknown) => this.#lose(client, error));
  }

  /** Says what is still to be said, and lets go. */
  async close(): Promise<void> {
    this.#isClosed = true;
    if (this.#timer) clearTimeout(this.#timer);
    await this.#saying;
    const client = this.#client;
    this.#client = null;
    await client?.end().catch(() => {});
  }

  /** One statement at a time: what comes meanwhile is said together. */
  #say(): void {
    if (!this.#isSaying) this.#saying = this.#sayEverything();
  }

  async #sayEverything(): Promise<void> {
    this.#isSaying = true;
    for (let client = this.#client; client && !this.#outbox.isEmpty; client = this.#client)
      await notifyAll(client, this.#outbox.empty()).catch(() => {});
    // Nobody hears it: everything here is a hint, and hints do not keep.
    this.#outbox.empty();
    this.#isSaying = false;
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
      for (const channel of busChannels) await client.query(`LISTEN ${channel}`);
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
    // Postgres tells a sender what it said itself; with many rooms that is most of what comes.
    if (payload.startsWith(this.#ownStart)) return;
    const message = readBusMessage(channel, payload);
    if (message) this.options.onMessage(message);
    else this.options.log({ what: "bus-unreadable", detail: channel });
  }
}

async function notifyAll(client: pg.Client, notes: readonly Note[]): Promise<void> {
  await client.query(sayAll, [notes.map(({ channel }) => channel), notes.map(({ payload }) => payload)]);
}
