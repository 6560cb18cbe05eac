import path from "node:path";
import { pathToFileURL } from "node:url";
import { bundleServer, generateClient } from "./build-product.mjs";
import { checkDatabasePort } from "./check-database-port.mjs";
import { checkDisk, checkPort } from "./check-place.mjs";
import { bundleFolder, cacheFolder, dataFolder, root } from "./folders.mjs";
import { installPackages, isInstalled } from "./install-packages.mjs";
import { readRoomsSettings } from "./read-settings.mjs";
import { onStop, runUntilStopped } from "./run-until-stopped.mjs";

/** @param {string} note */
const tell = (note) => console.log(note);

/**
 * From a fresh clone to a process that serves rooms and no pages, each step only when it is needed.
 *
 * @returns {Promise<void>}
 */
export function runRooms() {
  return runUntilStopped(startRooms);
}

async function startRooms() {
  process.chdir(root);
  const settings = readRoomsSettings(process.env);
  await checkPort(settings.host, settings.port);
  checkDisk(root, [cacheFolder], isInstalled(root) ? 200 : 2500);
  await checkDatabasePort(settings.databaseUrl);
  await installPackages(tell);
  await generateClient();
  const { openDatabase } = await import("./open-database.mjs");
  const database = await openDatabase(settings.databaseUrl, dataFolder);
  onStop(database.stop);
  Object.assign(process.env, {
    NODE_ENV: "production",
    NEXTAUTH_URL: settings.publicUrl,
    PORT: String(settings.port),
    HOST: settings.host,
  });
  await bundleServer();
  await serve();
}

async function serve() {
  const bundled = pathToFileURL(path.join(bundleFolder, "realtime.mjs"));
  /** @type {typeof import("../../realtime/main")} */
  const program = await import(bundled.href);
  const rooms = await program.startRooms(program.readRoomsSettings(process.env));
  onStop(() => rooms.close());
  tell(`The rooms of Colla Parte are ready on port ${rooms.port}`);
}
