import fs from "node:fs";
import { setTimeout as wait } from "node:timers/promises";
import { isAlive } from "./is-alive.mjs";

/**
 * Does `work` while no other process does the same, waiting for it if need be. The lock of a process that was
 * killed does not hold.
 *
 * @template T
 * @param {string} file the lock; holds the number of the process that has it.
 * @param {() => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function withFileLock(file, work) {
  while (!tryToLock(file)) await wait(100);
  try {
    return await work();
  } finally {
    fs.rmSync(file, { force: true });
  }
}

/** @param {string} file */
function tryToLock(file) {
  try {
    fs.writeFileSync(file, String(process.pid), { flag: "wx" });
    return true;
  } catch (error) {
    if (/** @type {NodeJS.ErrnoException} */ (error).code !== "EEXIST") throw error;
  }
  if (!isHeld(file)) fs.rmSync(file, { force: true });
  return false;
}

/** @param {string} file */
function isHeld(file) {
  try {
    const holder = Number(fs.readFileSync(file, "utf8"));
    // An empty lock is one that is being written this moment.
    if (!holder) return Date.now() - fs.statSync(file).mtimeMs < 1000;
    return isAlive(holder);
  } catch {
    return false;
  }
}
