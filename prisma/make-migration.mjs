import fs from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { startThrowAwayPostgres } from "./embedded/start-throw-away-postgres.mjs";
import { migrate } from "./migrate.mjs";
import { compareDatabaseToSchema } from "./schema-engine.mjs";

const folder = fileURLToPath(new URL("./migrations", import.meta.url));
const schemaFile = fileURLToPath(new URL("./schema.prisma", import.meta.url));

/**
 * What the migrations still lack to make the database that the schema describes, as SQL; empty when nothing.
 * Found on a throw-away server, so no database of ours is touched.
 *
 * @returns {Promise<string>}
 */
export async function findMissingMigration() {
  const server = await startThrowAwayPostgres();
  try {
    await migrate(server.url, folder);
    return await compareDatabaseToSchema(server.url, schemaFile);
  } finally {
    await server.stop();
  }
}

/** @param {string | undefined} name */
async function makeMigration(name) {
  if (!name || !/^[a-z0-9][a-z0-9-]*$/.test(name)) {
    console.error("Usage: npm run make-migration -- NAME (small letters, digits and hyphens).");
    return 1;
  }
  const sql = await findMissingMigration();
  if (!sql) {
    console.log("The migrations already make what prisma/schema.prisma describes.");
    return 0;
  }
  const time = new Date().toISOString().replace(/\D/g, "").slice(0, 14);
  const migration = path.join(folder, `${time}_${name.replaceAll("-", "_")}`);
  fs.mkdirSync(migration, { recursive: true });
  fs.writeFileSync(path.join(migration, "migration.sql"), sql);
  fs.writeFileSync(path.join(folder, "migration_lock.toml"), 'provider = "postgresql"\n');
  console.log(
    `Wrote ${path.relative(process.cwd(), migration)}/migration.sql; read it before you commit it.`,
  );
  return 0;
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  process.exitCode = await makeMigration(process.argv[2]);
