import crypto from "node:crypto";
import fs from "node:fs";
import path from "node:path";
import pg from "pg";
import { StartFailure } from "../app/_commands/start-failure.mjs";

/** The advisory lock Prisma's own tools take while they migrate, so that neither runs beside the other. */
const migrationLock = 72707369;

/** Prisma's own table, statement for statement, so that its tools can go on from here. */
const migrationTable = `CREATE TABLE IF NOT EXISTS _prisma_migrations (
  id VARCHAR(36) PRIMARY KEY NOT NULL,
  checksum VARCHAR(64) NOT NULL,
  finished_at TIMESTAMPTZ,
  migration_name VARCHAR(255) NOT NULL,
  logs TEXT,
  rolled_back_at TIMESTAMPTZ,
  started_at TIMESTAMPTZ NOT NULL DEFAULT now(),
  applied_steps_count INTEGER NOT NULL DEFAULT 0
)`;

/** @typedef {{ name: string, sql: string }} Migration */

/**
 * Brings a database to the newest migration. Safe to run from several processes at once and as often as one
 * likes; each migration is applied wholly or not at all.
 *
 * @param {string} url of the database.
 * @param {string} folder the migrations' folder.
 * @returns {Promise<string[]>} names of the migrations applied now, in order.
 * @throws {StartFailure} if a migration fails, was edited after it was applied, or is unknown to this version.
 */
export async function migrate(url, folder) {
  const client = new pg.Client({ connectionString: url, application_name: "colla-parte migrate" });
  await client.connect();
  try {
    await client.query("SELECT pg_advisory_lock($1)", [migrationLock]);
    await client.query(migrationTable);
    const pending = findPending(readMigrations(folder), await readApplied(client));
    for (const migration of pending) await apply(client, migration);
    return pending.map((migration) => migration.name);
  } finally {
    await client.end();
  }
}

/**
 * @param {string} folder
 * @returns {Migration[]} in the order of their names, which begin with a time.
 */
export function readMigrations(folder) {
  if (!fs.existsSync(folder)) return [];
  return fs
    .readdirSync(folder)
    .filter((name) => fs.existsSync(path.join(folder, name, "migration.sql")))
    .sort()
    .map((name) => ({ name, sql: fs.readFileSync(path.join(folder, name, "migration.sql"), "utf8") }));
}

/** @typedef {{ name: string, checksum: string, isFinished: boolean }} Applied */

/**
 * @param {pg.Client} client
 * @returns {Promise<Map<string, Applied>>}
 */
async function readApplied(client) {
  const { rows } = await client.query(
    `SELECT migration_name AS name, checksum, finished_at IS NOT NULL AS "isFinished"
     FROM _prisma_migrations WHERE rolled_back_at IS NULL`,
  );
  return new Map(rows.map((row) => [row.name, row]));
}

/**
 * @param {Migration[]} migrations
 * @param {Map<string, Applied>} applied
 */
function findPending(migrations, applied) {
  const known = new Set(migrations.map((migration) => migration.name));
  for (const { name, isFinished } of applied.values()) {
    if (!isFinished)
      throw new StartFailure(`Migration ${name} failed earlier and was not resolved in this database.`);
    if (!known.has(name))
      throw new StartFailure(
        `The database has migration ${name}, which this version of Colla Parte does not know.`,
      );
  }
  return migrations.filter((migration) => {
    const row = applied.get(migration.name);
    if (row && !checksums(migration.sql).includes(row.checksum))
      throw new StartFailure(`Migration ${migration.name} was edited after it was applied to this database.`);
    return !row;
  });
}

/**
 * @param {pg.Client} client
 * @param {Migration} migration
 */
async function apply(client, { name, sql }) {
  await client.query("BEGIN");
  try {
    await client.query(sql);
    await client.query(
      `INSERT INTO _prisma_migrations (id, checksum, finished_at, migration_name, applied_steps_count)
       VALUES ($1, $2, now(), $3, 1)`,
      [crypto.randomUUID(), checksums(sql)[0], name],
    );
    await client.query("COMMIT");
  } catch (error) {
    await client.query("ROLLBACK");
    const reason = error instanceof Error ? error.message : String(error);
    throw new StartFailure(`Migration ${name} failed and nothing of it was kept: ${reason}.`);
  }
}

/**
 * SHA-256 of the script with Unix and with Windows line ends: a checkout may differ in them and in nothing else.
 *
 * @param {string} sql
 */
function checksums(sql) {
  const unix = sql.replaceAll("\r\n", "\n");
  return [unix, unix.replaceAll("\n", "\r\n")].map((text) =>
    crypto.createHash("sha256").update(text).digest("hex"),
  );
}
