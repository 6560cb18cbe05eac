import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { isAlive } from "../../app/_commands/is-alive.mjs";
import { clusterFiles } from "./cluster.mjs";
import { findLivingPostmaster, stopPostmaster } from "./postmaster.mjs";
import { startEmbeddedPostgres } from "./start-embedded-postgres.mjs";

const prefix = "colla-throw-away-";

/**
 * A server of its own in the system's temporary folder, fast and not durable; `stop` removes it with all it
 * holds. What killed processes left behind is cleared away first, as nobody else would.
 *
 * @returns {Promise<{ url: string, pid: number, folder: string, stop: () => Promise<void> }>}
 */
export async function startThrowAwayPostgres() {
  await removeLeftovers();
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), prefix));
  fs.chmodSync(folder, 0o711);
  fs.writeFileSync(path.join(folder, "owner"), String(process.pid));
  const server = await startEmbeddedPostgres({ folder: path.join(folder, "database"), isDurable: false });
  const stop = async () => {
    await server.stop();
    fs.rmSync(server.base, { recursive: true, force: true });
    fs.rmSync(folder, { recursive: true, force: true });
  };
  return { url: server.url, pid: server.pid, folder, stop };
}

async function removeLeftovers() {
  for (const name of fs.readdirSync(os.tmpdir()).filter((name) => name.startsWith(prefix))) {
    const folder = path.join(os.tmpdir(), name);
    if (isLeftOver(folder)) await remove(folder);
  }
}

/**
 * Whether the process that began this folder is gone. One without an owner is being made this moment.
 *
 * @param {string} folder
 */
function isLeftOver(folder) {
  try {
    return !isAlive(Number(fs.readFileSync(path.join(folder, "owner"), "utf8")));
  } catch {
    return false;
  }
}

/** @param {string} folder */
async function remove(folder) {
  const left = findLivingPostmaster(clusterFiles(path.join(folder, "database")).data);
  if (left) await stopPostmaster(left.pid);
  fs.rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
}
