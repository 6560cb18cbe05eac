import { spawn } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import { cacheFolder, root, shown } from "./folders.mjs";
import { StartFailure } from "./start-failure.mjs";

/** The step that is under way, so that an interrupted start can end it. @type {import("node:child_process").ChildProcess | null} */
let current = null;

/** No part of the tools reports to anyone or downloads anything beside the packages. */
const quietTools = {
  NEXT_TELEMETRY_DISABLED: "1",
  CHECKPOINT_DISABLE: "1",
  PRISMA_HIDE_UPDATE_MESSAGE: "1",
  DO_NOT_TRACK: "1",
  // Generating the client wants this to be a file that exists and never runs it; the real one is a download.
  PRISMA_SCHEMA_ENGINE_BINARY: process.execPath,
};

/**
 * Runs one long step to its end, its output going to a log in the cache folder.
 *
 * @param {string} name for the sentence and the log, such as "Installing the packages".
 * @param {string} command
 * @param {string[]} options
 * @param {Record<string, string>} [environment]
 * @returns {Promise<string>} what it printed.
 * @throws {StartFailure} that names the log when the step fails.
 */
export async function runStep(name, command, options, environment = {}) {
  const log = path.join(cacheFolder, `${name.toLowerCase().replaceAll(" ", "-")}.log`);
  fs.mkdirSync(cacheFolder, { recursive: true });
  // The demo prints a password.
  const output = fs.openSync(log, "w", 0o600);
  const step = spawn(command, options, {
    cwd: root,
    env: { ...process.env, ...quietTools, ...environment },
    stdio: ["ignore", output, output],
    shell: process.platform === "win32" && command === "npm",
  });
  fs.closeSync(output);
  current = step;
  const code = await new Promise((resolve) => {
    step.once("error", (error) => resolve(error.message));
    step.once("exit", (status, signal) => resolve(status ?? signal));
  });
  current = null;
  const printed = fs.readFileSync(log, "utf8");
  if (code !== 0) throw new StartFailure(sayStepFailure(name, log, printed));
  return printed;
}

/** Ends the step that is under way, if there is one. */
export function stopStep() {
  current?.kill("SIGTERM");
}

/**
 * @param {string} name
 * @param {string} log
 * @param {string} printed
 */
function sayStepFailure(name, log, printed) {
  const told = printed.split("\n").filter((line) => /error|failed|not found/i.test(line));
  // Next announces that there was an error before it says which.
  const reason = printed.includes("ENOSPC")
    ? "the disk is full"
    : told.find((line) => !line.includes("Build error occurred"))?.trim();
  return `${name} failed${reason ? ` (${reason.slice(0, 200)})` : ""}; the whole output is in ${shown(log)}.`;
}
