import fs from "node:fs";
import path from "node:path";
import pg from "pg";
import { keepEmbeddedPostgres } from "../../prisma/embedded/keep-embedded-postgres.mjs";
import { migrate } from "../../prisma/migrate.mjs";
import { root } from "./folders.mjs";
import { isAlive } from "./is-alive.mjs";
import { StartFailure } from "./start-failure.mjs";

const embeddedName = "colla_parte";

/**
 * @typedef {object} OpenDatabase
 * @property {string} url
 * @property {string | null} base where the embedded server keeps its data; null for a server of someone else's.
 * @property {() => Promise<void>} stop
 */

/**
 * Who hears of the embedded database while it is open.
 *
 * @typedef {object} Listener
 * @property {(sentence: string) => void} tell that it died, and that it is back.
 * @property {(error: unknown) => void} onGivenUp that it died and does not come back.
 */

/** @type {Listener} */
const onStderr = { tell: (sentence) => console.error(sentence), onGivenUp: (error) => console.error(error) };

/**
 * A reachable database that is at the newest migration.
 *
 * @param {string | null} url null: the embedded database in `folder`, started or attached to, and brought back
 *   whenever it dies while it is open.
 * @param {string} folder
 * @param {Listener} [listener]
 * @returns {Promise<OpenDatabase>}
 * @throws {StartFailure} with one sentence.
 */
export async function openDatabase(url, folder, listener = onStderr) {
  const database = url ? { url, base: null, stop: async () => {} } : await openEmbedded(folder, listener);
  try {
    await checkConnection(database.url);
    await migrate(database.url, path.join(root, "prisma", "migrations"));
    return database;
  } catch (error) {
    await database.stop();
    throw error;
  }
}

/**
 * @param {string} folder
 * @param {Listener} listener
 * @returns {Promise<OpenDatabase>}
 */
async function openEmbedded(folder, listener) {
  const server = await keepEmbeddedPostgres({ folder, ...listener });
  const url = new URL(server.url);
  url.pathname = `/${embeddedName}`;
  try {
    await ask(server.url, async (client) => {
      const { rowCount } = await client.query("SELECT 1 FROM pg_database WHERE datname = $1", [embeddedName]);
      if (!rowCount) await client.query(`CREATE DATABASE ${embeddedName}`);
    });
  } catch (error) {
    await server.stop();
    throw new StartFailure(sayDatabaseFailure(server.url, error));
  }
  const stopUsing = noteUse(server.base);
  const stop = async () => {
    await (stopUsing().areOthersLeft ? server.leave() : server.stop());
  };
  return { url: url.href, base: server.base, stop };
}

/**
 * Another `npm start` in the same folder uses the same server; whoever ends last stops it. So each notes its
 * process beside the data.
 *
 * @param {string} base
 * @returns {() => { areOthersLeft: boolean }} takes the note back.
 */
function noteUse(base) {
  const folder = path.join(base, "used-by");
  fs.mkdirSync(folder, { recursive: true });
  fs.writeFileSync(path.join(folder, String(process.pid)), "");
  return () => {
    fs.rmSync(path.join(folder, String(process.pid)), { force: true });
    const living = fs.readdirSync(folder).filter((pid) => isAlive(Number(pid)));
    return { areOthersLeft: living.length > 0 };
  };
}

/** @param {string} url */
async function checkConnection(url) {
  try {
    await ask(url, (client) => client.query("SELECT 1"));
  } catch (error) {
    throw new StartFailure(sayDatabaseFailure(url, error));
  }
}

/**
 * @template T
 * @param {string} url
 * @param {(client: pg.Client) => Promise<T>} question
 * @returns {Promise<T>}
 */
async function ask(url, question) {
  const client = new pg.Client({ connectionString: url, connectionTimeoutMillis: 10_000 });
  await client.connect();
  try {
    return await question(client);
  } finally {
    await client.end();
  }
}

/**
 * One sentence for a failed connection; never with the password.
 *
 * @param {string} url
 * @param {unknown} error
 * @returns {string}
 */
export function sayDatabaseFailure(url, error) {
  const { username, pathname, host } = new URL(url);
  const { code, message } = /** @type {{ code?: string, message: string }} */ (error);
  const name = decodeURIComponent(pathname.slice(1));
  switch (code) {
    case "28P01": // SQLSTATE invalid_password
    case "28000": // SQLSTATE invalid_authorization_specification
      return `The database at ${host} refused the sign-in of "${decodeURIComponent(username)}"; check the user and the password in DATABASE_URL.`;
    case "3D000": // SQLSTATE invalid_catalog_name
      return `The server at ${host} has no database named "${name}"; create it, or name another in DATABASE_URL.`;
    case "42501": // SQLSTATE insufficient_privilege
      return `The user "${decodeURIComponent(username)}" may not do what is needed in the database at ${host}: ${message}.`;
    default:
      return `The database at ${host} cannot be reached (${code ?? message}); check DATABASE_URL and that the server runs.`;
  }
}
