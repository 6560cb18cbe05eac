import fs from "node:fs";
import { setTimeout as wait } from "node:timers/promises";
import { isAlive } from "./is-alive.mjs";

/** A holder shows this often that it is still at work. */
const signMs = 5_000;

/** A lock without a sign for this long does not hold: its process's number may belong to another by now. */
const silentMs = 60_000;

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
  const signs = setInterval(() => showSign(file), signMs).unref();
  try {
    return await work();
  } finally {
    clearInterval(signs);
    fs.rmSync(file, { force: true });
  }
}

/** @param {string} file */
function tryToLock(file) {
  if (create(file, String(process.pid))) return true;
  removeIfLeft(file);
  return false;
}

/**
 * Of several that find the same lock left behind, one at a time looks and removes: otherwise the second would
 * remove the new lock of the first.
 *
 * @param {string} file
 */
function removeIfLeft(file) {
  const guard = `${file}.guard`;
  if (!create(guard, "")) {
    // Held for the blink of an eye; one that is older was left by a process that was killed in it.
    if (millisecondsSince(guard) > signMs) fs.rmSync(guard, { force: true });
    return;
  }
  try {
    if (!isHeld(file)) fs.rmSync(file, { force: true });
  } finally {
    fs.rmSync(guard, { force: true });
  }
}

/**
 * @param {string} file
 * @param {string} text
 * @returns {boolean} false when it exists already.
 */
function create(file, text) {
  try {
    fs.writeFileSync(file, text, { flag: "wx" });
    return true;
  } catch (error) {
    if (/** @type {NodeJS.ErrnoException} */ (error).code !== "EEXIST") throw error;
    return false;
  }
}

/** @param {string} file */
function isHeld(file) {
  try {
    const holder = Number(fs.readFileSync(file, "utf8"));
    const silence = millisecondsSince(file);
    // An empty lock is one that is being written this moment.
    return holder ? isAlive(holder) && silence < silentMs : silence < 1000;
  } catch {
    return false;
  }
}

/** @param {string} file */
function showSign(file) {
  const now = new Date();
  try {
    fs.utimesSync(file, now, now);
  } catch {
    // Taken away from outside; the work goes on.
  }
}

/** @param {string} file */
function millisecondsSince(file) {
  const { mtimeMs } = fs.statSync(file, { throwIfNoEntry: false }) ?? { mtimeMs: Date.now() };
  return Date.now() - mtimeMs;
}
