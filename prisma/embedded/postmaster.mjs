import { spawnSync } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { isAlive } from "../../app/_commands/is-alive.mjs";

/**
 * What `postmaster.pid` says of a server on this data folder: its process, port and state.
 *
 * @typedef {{ pid: number, port: number, state: string }} Postmaster
 */

/** @param {string} data the data folder. */
function pidFile(data) {
  return path.join(data, "postmaster.pid");
}

/**
 * The lines of `postmaster.pid` (PostgreSQL manual, "Database File Layout"): 1 process, 4 port, 8 state.
 *
 * @param {string} data
 * @returns {Postmaster | null}
 */
export function readPostmaster(data) {
  let lines;
  try {
    lines = fs.readFileSync(pidFile(data), "utf8").split("\n");
  } catch {
    return null;
  }
  const pid = Number(lines[0]);
  if (!Number.isInteger(pid) || pid <= 0) return null;
  return { pid, port: Number(lines[3]), state: (lines[7] ?? "").trim() };
}

/**
 * The server that is really running on this data folder. The file alone proves nothing: after a crash it stays
 * behind, its number may meanwhile belong to another process, or to a dead one that nobody has collected.
 * A file that belongs to no living server is removed, as PostgreSQL itself would be misled by it.
 *
 * @param {string} data
 * @returns {Postmaster | null}
 */
export function findLivingPostmaster(data) {
  const postmaster = readPostmaster(data);
  if (!postmaster) return null;
  if (isServer(postmaster.pid)) return postmaster;
  fs.rmSync(pidFile(data), { force: true });
  return null;
}

/**
 * Whether `pid` is a living (not a zombie) postgres process.
 *
 * @param {number} pid
 */
export function isServer(pid) {
  try {
    process.kill(pid, 0);
  } catch (error) {
    if (/** @type {NodeJS.ErrnoException} */ (error).code !== "EPERM") return false;
  }
  if (process.platform === "linux") return isLinuxServer(pid);
  if (process.platform === "win32") return true;
  const listed = spawnSync("ps", ["-o", "stat=,comm=", "-p", String(pid)], { encoding: "utf8" });
  const [state = "", name = ""] = listed.stdout.trim().split(/\s+/);
  return !state.startsWith("Z") && path.basename(name).startsWith("postgres");
}

/**
 * Whether a server that was running has ended: the same question as `isServer`, cheap enough to be asked ten times
 * a second.
 *
 * @param {number} pid
 */
export function isGone(pid) {
  return process.platform === "linux" ? !isLinuxServer(pid) : !isAlive(pid);
}

/** @param {number} pid */
function isLinuxServer(pid) {
  try {
    // "PID (name) state …"; the name may hold spaces, so the state is what follows the last bracket.
    const stat = fs.readFileSync(`/proc/${pid}/stat`, "utf8");
    const state = stat.slice(stat.lastIndexOf(")") + 2, stat.lastIndexOf(")") + 3);
    return state !== "Z" && state !== "X" && stat.includes("(postgres)");
  } catch {
    return false;
  }
}

/**
 * Waits until the server on this folder says it is ready.
 *
 * @param {string} data
 * @param {{ isAlive: (pid: number) => boolean, seconds: number }} limits
 * @returns {Promise<Postmaster | null>} null when the server ended, or was not ready in time.
 */
export async function waitUntilReady(data, { isAlive, seconds }) {
  const end = Date.now() + seconds * 1000;
  for (let seen = 0; Date.now() < end; ) {
    const postmaster = readPostmaster(data);
    if (postmaster?.state === "ready") return postmaster;
    seen = postmaster?.pid ?? seen;
    if (!isAlive(seen)) return null;
    await wait(10);
  }
  return null;
}

/**
 * Ends a server the quick and clean way ("fast shutdown": SIGINT) and waits until it is gone.
 *
 * @param {number} pid
 */
export async function stopPostmaster(pid) {
  try {
    process.kill(pid, "SIGINT");
  } catch {
    return;
  }
  const end = Date.now() + 30_000;
  while (isServer(pid) && Date.now() < end) await wait(10);
}
