import pg from "pg";
import { databaseAddress } from "./database-address";

// On the global object for the same reason as the client in database.ts.
const holder = globalThis as typeof globalThis & { collaJournal?: pg.Pool };

/** How many appends to the logs of rooms can be under way at once in one process. */
export const journalConnectionCount = 3;

/** Longer than any append takes: whoever waits for a connection that has gone dumb is told so. */
const longestWaitMs = 20_000;

/**
 * Connections for the logs of rooms only: their few statements run so often that they are prepared once on each
 * connection and spoken without the client of database.ts, and they never queue behind a page. Opened at first use.
 *
 * @throws ZodError if `DATABASE_URL` names no Postgres server.
 */
export function journalConnections(): pg.Pool {
  holder.collaJournal ??= open();
  return holder.collaJournal;
}

/** Whether an error is what the database said about a statement, and not that it said nothing. */
export function hasAnswered(error: unknown): boolean {
  return error instanceof pg.DatabaseError;
}

/** Closes them; the next use opens new ones. */
export async function closeJournalConnections(): Promise<void> {
  const open = holder.collaJournal;
  delete holder.collaJournal;
  await open?.end();
}

function open(): pg.Pool {
  const pool = new pg.Pool({
    connectionString: databaseAddress(),
    application_name: "colla-parte journal",
    // What is read on from a log does not wait for commits.
    max: journalConnectionCount + 2,
    idleTimeoutMillis: 60_000,
    connectionTimeoutMillis: longestWaitMs,
    query_timeout: longestWaitMs,
    keepAlive: true,
    allowExitOnIdle: true,
  });
  // A connection that breaks while nobody uses it is replaced at the next use; without a listener it would throw.
  pool.on("error", () => {});
  return pool;
}
