import fs from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { cacheFolder, root } from "./folders.mjs";
import { isInstalled } from "./install-packages.mjs";

/**
 * `node run-script.mjs FILE.ts …`: runs a TypeScript program of ours. It is bundled once and again whenever one
 * of its sources changes; otherwise starting it costs no more than starting Node.
 *
 * @typedef {Record<string, number>} Sources path inside the project → time of its last change, in milliseconds
 */

const [entry, ...options] = process.argv.slice(2);

if (!entry) {
  console.error("Usage: node app/_commands/run-script.mjs FILE.ts [options]");
  process.exitCode = 1;
} else if (!isInstalled(root)) {
  console.error("The packages are not installed; run npm ci (or npm start, which does it) first.");
  process.exitCode = 1;
} else {
  const program = await prepare(entry);
  process.argv = [process.argv[0] ?? "node", program, ...options];
  await import(pathToFileURL(program).href);
}

/**
 * @param {string} entry
 * @returns {Promise<string>} the bundled program.
 */
async function prepare(entry) {
  const folder = path.join(cacheFolder, "scripts");
  const name = path.basename(entry, ".ts");
  const program = path.join(folder, `${name}.mjs`);
  const list = path.join(folder, `${name}.sources.json`);
  if (isCurrent(program, list)) return program;
  const { bundle } = await import("./bundle-entries.mjs");
  const { inputs } = await bundle([entry], folder);
  const sources = Object.fromEntries(Object.keys(inputs).map((file) => [file, changedAt(file)]));
  fs.writeFileSync(list, JSON.stringify(sources));
  return program;
}

/**
 * @param {string} program
 * @param {string} list
 */
function isCurrent(program, list) {
  if (!fs.existsSync(program) || !fs.existsSync(list)) return false;
  /** @type {Sources} */
  const sources = JSON.parse(fs.readFileSync(list, "utf8"));
  return Object.entries(sources).every(([file, time]) => changedAt(file) === time);
}

/** @param {string} file */
function changedAt(file) {
  return fs.statSync(path.join(root, file), { throwIfNoEntry: false })?.mtimeMs ?? 0;
}
