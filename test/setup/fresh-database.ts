import { randomBytes } from "node:crypto";
import { administer, databaseUrl, templateName } from "@/test/setup/database";

export interface FreshDatabase {
  readonly url: string;
  /** Removes the database, closing whatever is still connected to it. */
  drop(): Promise<void>;
}

/**
 * A migrated, otherwise empty database of the caller's own.
 *
 * @throws RangeError outside the test projects that start Postgres (store, realtime, app, e2e).
 */
export async function createFreshDatabase(): Promise<FreshDatabase> {
  const server = process.env.DATABASE_URL;
  if (!server) throw new RangeError("no test database: this project's set-up does not start Postgres");
  const admin = databaseUrl(server, "postgres");
  const name = `fresh_${randomBytes(8).toString("hex")}`;
  await administer(admin, `CREATE DATABASE ${name} TEMPLATE ${templateName}`);
  return {
    url: databaseUrl(server, name),
    drop: () => administer(admin, `DROP DATABASE IF EXISTS ${name} WITH (FORCE)`),
  };
}
