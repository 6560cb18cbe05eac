import { fileURLToPath } from "node:url";
import pg from "pg";
import { generateClient } from "@/app/_commands/build-product.mjs";
import { startThrowAwayPostgres } from "@/prisma/embedded/start-throw-away-postgres.mjs";
import { migrate } from "@/prisma/migrate.mjs";

/** The migrated database that every fresh database is copied from; nobody connects to it. */
export const templateName = "colla_template";

const sharedName = "colla_test";
const migrations = fileURLToPath(new URL("../../prisma/migrations", import.meta.url));

interface RunningDatabase {
  users: number;
  ready: Promise<{ url: string; stop: () => Promise<void> }>;
}

// The set-up of every project runs in the same process, but each loads its own copy of this module.
const holder = globalThis as typeof globalThis & { collaTestDatabase?: RunningDatabase };

/**
 * Set-up of the test projects that need Postgres: one throw-away server for the whole run, migrated, in a
 * folder of its own that is removed afterwards. `DATABASE_URL` names a migrated database on it.
 */
export default async function setup(): Promise<() => Promise<void>> {
  holder.collaTestDatabase ??= { users: 0, ready: startThrowAwayServer() };
  const running = holder.collaTestDatabase;
  running.users += 1;
  const { url, stop } = await running.ready;
  process.env.DATABASE_URL = url;
  return async () => {
    running.users -= 1;
    if (running.users > 0) return;
    delete holder.collaTestDatabase;
    await stop();
  };
}

/** Starts a server with the migrated template and one shared database. */
async function startThrowAwayServer() {
  await generateClient();
  const server = await startThrowAwayPostgres();
  try {
    await prepareDatabases(server.url);
  } catch (error) {
    await server.stop();
    throw error;
  }
  return { url: databaseUrl(server.url, sharedName), stop: server.stop };
}

async function prepareDatabases(adminUrl: string): Promise<void> {
  await administer(adminUrl, `CREATE DATABASE ${templateName}`);
  await migrate(databaseUrl(adminUrl, templateName), migrations);
  await administer(adminUrl, `ALTER DATABASE ${templateName} WITH ALLOW_CONNECTIONS false IS_TEMPLATE true`);
  await administer(adminUrl, `CREATE DATABASE ${sharedName} TEMPLATE ${templateName}`);
}

/** The same server, another database. */
export function databaseUrl(url: string, name: string): string {
  const changed = new URL(url);
  changed.pathname = `/${name}`;
  return changed.href;
}

/** Runs one statement on a connection of its own. */
export async function administer(url: string, statement: string): Promise<void> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    await client.query(statement);
  } finally {
    await client.end();
  }
}
