import { spawnSync } from "node:child_process";
import crypto from "node:crypto";
import fs from "node:fs";
import path from "node:path";
import { StartFailure } from "../../app/_commands/start-failure.mjs";

/** The role that owns the embedded server. */
export const owner = "colla";

/**
 * Where one embedded server keeps what belongs to it.
 *
 * @typedef {{ base: string, data: string, password: string, log: string }} ClusterFiles
 */

/**
 * What makes a data folder: the program, the account it runs under, and whether the result has to survive.
 *
 * @typedef {{ initdb: string, account: import("./account.mjs").Account | null, isDurable: boolean }} Maker
 */

/**
 * @param {string} base
 * @returns {ClusterFiles}
 */
export function clusterFiles(base) {
  return {
    base,
    data: path.join(base, "postgres"),
    password: path.join(base, "postgres-password"),
    log: path.join(base, "postgres.log"),
  };
}

/**
 * The password of the server's owner; a new data folder is made when there is none.
 *
 * @param {ClusterFiles} files
 * @param {Maker} by
 * @returns {string}
 * @throws {StartFailure} if the data folder exists and its password is gone, or making the folder fails.
 */
export function openCluster(files, by) {
  if (!fs.existsSync(files.data)) createCluster(files, by);
  try {
    return fs.readFileSync(files.password, "utf8").trim();
  } catch {
    throw new StartFailure(
      `The password of the embedded database is missing (${files.password}); put it back, or move ${files.data} away to begin with an empty database.`,
    );
  }
}

/**
 * @param {ClusterFiles} files
 * @param {Maker} by
 */
function createCluster(files, by) {
  const { account } = by;
  const password = crypto.randomBytes(24).toString("hex");
  // Made aside and renamed, so that an interrupted start never leaves half a data folder under the real name.
  const unfinished = `${files.data}.unfinished`;
  fs.rmSync(unfinished, { recursive: true, force: true });
  fs.mkdirSync(unfinished, { mode: 0o700 });
  const passwordForServer = `${files.password}.server`;
  fs.writeFileSync(passwordForServer, password, { mode: 0o600 });
  if (account) {
    fs.chownSync(unfinished, account.uid, account.gid);
    fs.chownSync(passwordForServer, account.uid, account.gid);
  }
  const made = runInitdb(by, unfinished, passwordForServer);
  fs.rmSync(passwordForServer, { force: true });
  if (made.status !== 0) {
    const reason = lastLine(made.stderr || String(made.error?.message ?? ""));
    throw new StartFailure(`The embedded database could not be created in ${files.data}: ${reason}`);
  }
  fs.writeFileSync(files.password, `${password}\n`, { mode: 0o600 });
  fs.renameSync(unfinished, files.data);
}

/**
 * @param {Maker} by
 * @param {string} data
 * @param {string} passwordFile
 */
function runInitdb({ initdb, account, isDurable }, data, passwordFile) {
  const options = [
    "--auth=scram-sha-256",
    `--username=${owner}`,
    `--pwfile=${passwordFile}`,
    "--encoding=UTF8",
    "--locale=C",
    "--locale-provider=builtin",
    "--builtin-locale=C.UTF-8",
    "--no-instructions",
    ...(isDurable ? [] : ["--no-sync"]),
  ];
  return spawnSync(initdb, ["--pgdata", data, ...options], {
    cwd: path.parse(data).root,
    env: { ...process.env, LC_ALL: "C", TZ: "UTC" },
    encoding: "utf8",
    ...(account ? { uid: account.uid, gid: account.gid } : {}),
  });
}

/** @param {string} text */
function lastLine(text) {
  return text.trim().split("\n").at(-1) ?? "";
}
