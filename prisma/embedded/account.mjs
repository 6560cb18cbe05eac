import { spawnSync } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import { StartFailure } from "../../app/_commands/start-failure.mjs";

/** @typedef {{ name: string, uid: number, gid: number }} Account */

/**
 * The account the database server runs under: null keeps our own. PostgreSQL refuses to run as root, so root
 * drops to `postgres` or, where there is none, to `nobody`.
 *
 * @returns {Account | null}
 * @throws {StartFailure} if we are root and neither account exists.
 */
export function findServerAccount() {
  if (process.getuid?.() !== 0) return null;
  for (const name of ["postgres", "nobody"]) {
    const uid = numericId("-u", name);
    const gid = numericId("-g", name);
    if (uid !== null && gid !== null) return { name, uid, gid };
  }
  throw new StartFailure(
    "PostgreSQL does not run as root and there is no account named postgres or nobody here; start as an ordinary user or set DATABASE_URL.",
  );
}

/**
 * @param {string} option
 * @param {string} name
 * @returns {number | null}
 */
function numericId(option, name) {
  const result = spawnSync("id", [option, name], { encoding: "utf8" });
  return result.status === 0 ? Number(result.stdout) : null;
}

/**
 * Whether every folder on the way to `target` may be entered by other accounts.
 *
 * @param {string} target absolute path; parts that do not exist yet count as open.
 */
export function isReachable(target) {
  for (let folder = path.resolve(target); ; folder = path.dirname(folder)) {
    if (fs.existsSync(folder) && (fs.statSync(folder).mode & 0o001) === 0) return false;
    if (folder === path.dirname(folder)) return true;
  }
}
