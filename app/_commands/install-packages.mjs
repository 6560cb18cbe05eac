import fs from "node:fs";
import path from "node:path";
import { root } from "./folders.mjs";
import { runStep } from "./run-step.mjs";

/**
 * @typedef {{ version?: string, integrity?: string, optional?: boolean, devOptional?: boolean, dev?: boolean }} LockedPackage
 */

/**
 * Installs what the lock file names, when something else or nothing is installed.
 *
 * @param {(note: string) => void} tell
 * @returns {Promise<void>}
 */
export async function installPackages(tell) {
  if (isInstalled(root)) return;
  tell("Installing packages (about a minute)…");
  await runStep("Installing the packages", "npm", ["ci", "--include=dev", "--no-audit", "--no-fund"]);
}

/**
 * Whether the installed packages are those of the lock file. npm writes what it installed to a lock file of its
 * own inside `node_modules`, last of all, so an interrupted installation counts as none.
 *
 * @param {string} folder the project's.
 */
export function isInstalled(folder) {
  const wanted = readLock(path.join(folder, "package-lock.json"));
  const installed = readLock(path.join(folder, "node_modules", ".package-lock.json"));
  if (!wanted || !installed) return false;
  return Object.entries(wanted).every(([name, locked]) => {
    const present = installed[name];
    // Packages for other platforms are in the lock file and are rightly not installed.
    if (!present) return name === "" || locked.optional === true || locked.devOptional === true;
    return present.version === locked.version && present.integrity === locked.integrity;
  });
}

/**
 * @param {string} file
 * @returns {Record<string, LockedPackage> | null}
 */
function readLock(file) {
  try {
    return JSON.parse(fs.readFileSync(file, "utf8")).packages;
  } catch {
    return null;
  }
}
