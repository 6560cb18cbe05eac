import fs from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { buildPages, bundleServer, generateClient } from "./build-product.mjs";
import { checkDatabasePort } from "./check-database-port.mjs";
import { checkDisk, checkPort } from "./check-place.mjs";
import { bundleFolder, cacheFolder, dataFolder, root } from "./folders.mjs";
import { installPackages, isInstalled } from "./install-packages.mjs";
import { readSecret } from "./read-secret.mjs";
import { readSettings } from "./read-settings.mjs";
import { runStep } from "./run-step.mjs";
import { giveUp, onStop, runUntilStopped } from "./run-until-stopped.mjs";

/** @param {string} note */
const tell = (note) => console.log(note);

/**
 * From a fresh clone to a product that serves, each step only when it is needed.
 *
 * @param {{ isDevelopment: boolean }} options
 * @returns {Promise<void>}
 */
export function runStart(options) {
  return runUntilStopped(() => startEverything(options));
}

/** @param {{ isDevelopment: boolean }} options */
async function startEverything({ isDevelopment }) {
  process.chdir(root);
  const settings = readSettings(process.env);
  await checkPort(settings.host, settings.port);
  checkDisk(root, [dataFolder, cacheFolder], isInstalled(root) ? 200 : 2500);
  if (settings.databaseUrl) await checkDatabasePort(settings.databaseUrl);
  await installPackages(tell);
  await generateClient();
  const database = await openDatabaseOf(settings);
  setEnvironment(settings, database.url, isDevelopment);
  await bundleServer();
  if (!isDevelopment) await buildPages(tell);
  const demo = settings.hasDemo ? await loadDemoOnce(database.base) : null;
  await serve(isDevelopment);
  tell(`Colla Parte is ready at ${settings.publicUrl}${demo ? ` · demo: ${demo}` : ""}`);
}

/** @param {import("./read-settings.mjs").Settings} settings */
async function openDatabaseOf(settings) {
  const { openDatabase } = await import("./open-database.mjs");
  const database = await openDatabase(settings.databaseUrl, dataFolder, {
    tell,
    onGivenUp: (error) => void giveUp(error),
  });
  onStop(database.stop);
  if (database.base && database.base !== dataFolder) tell(`The database is kept in ${database.base}.`);
  return database;
}

/**
 * @param {import("./read-settings.mjs").Settings} settings
 * @param {string} databaseUrl
 * @param {boolean} isDevelopment
 */
function setEnvironment(settings, databaseUrl, isDevelopment) {
  Object.assign(process.env, {
    NODE_ENV: isDevelopment ? "development" : "production",
    NEXT_TELEMETRY_DISABLED: "1",
    DATABASE_URL: databaseUrl,
    NEXTAUTH_URL: settings.publicUrl,
    NEXTAUTH_SECRET: process.env.NEXTAUTH_SECRET || readSecret(path.join(dataFolder, "secret")),
    PORT: String(settings.port),
    HOST: settings.host,
  });
}

/**
 * Loads the demo into a database that does not have it, and says how to sign in to it.
 *
 * @param {string | null} base of the embedded database: what was loaded is noted beside its data, as both come
 *   and go together. A server of someone else's is asked each time.
 * @returns {Promise<string>} the sign-ins, in words.
 */
async function loadDemoOnce(base) {
  const note = base && path.join(base, "demo-sign-ins");
  if (note && fs.existsSync(note)) return fs.readFileSync(note, "utf8");
  tell("Loading the demo…");
  const printed = await runStep("Loading the demo", process.execPath, [path.join(bundleFolder, "main.mjs")]);
  const signIns = printed.trim().split("\n").at(-1) ?? "";
  if (note) fs.writeFileSync(note, signIns, { mode: 0o600 });
  return signIns;
}

/** @param {boolean} isDevelopment */
async function serve(isDevelopment) {
  const bundled = pathToFileURL(path.join(bundleFolder, "serve.mjs"));
  /** @type {typeof import("./serve")} */
  const { startServer, readServeSettings } = await import(bundled.href);
  const server = await startServer({ ...readServeSettings(process.env), isDevelopment });
  onStop(() => server.close());
}
