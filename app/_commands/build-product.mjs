import fs from "node:fs";
import path from "node:path";
import { withFileLock } from "./file-lock.mjs";
import { bundleFolder, cacheFolder, root } from "./folders.mjs";
import { hashFiles } from "./hash-files.mjs";
import { runStep } from "./run-step.mjs";

const schema = "prisma/schema.prisma";
const generated = "generated/prisma";
const clientStamp = path.join(root, generated, ".made-from");
const pagesStamp = path.join(root, ".next", ".made-from");
const bundleStamp = path.join(bundleFolder, ".made-from");
const threadsStamp = path.join(bundleFolder, ".threads-made-from");
const common = ["package-lock.json", "tsconfig.json", schema, "lib"];
const pageSources = [...common, "next.config.mjs", "app", "public"];
const bundleSources = [...common, "app/_commands", "app/_data", "app/_offline", "realtime", "seed"];

/**
 * Makes the database client from the schema, when the schema or Prisma changed.
 *
 * @returns {Promise<void>}
 */
export function generateClient() {
  return makeWhenChanged(clientStamp, [schema, "package-lock.json"], async () => {
    await runStep("Generating the database client", process.execPath, [
      "node_modules/prisma/build/index.js",
      "generate",
    ]);
  });
}

/**
 * Bundles the server, the demo and the workers, when their sources changed.
 *
 * @returns {Promise<void>}
 */
export function bundleServer() {
  return makeWhenChanged(bundleStamp, bundleSources, async () => {
    const { bundleEntries } = await import("./bundle-entries.mjs");
    await bundleEntries();
  });
}

/**
 * Bundles the worker threads alone, when their sources changed: tests run them without the rest.
 *
 * @returns {Promise<void>}
 */
export function bundleThreads() {
  return makeWhenChanged(threadsStamp, common, async () => {
    const { bundleWorkers } = await import("./bundle-entries.mjs");
    await bundleWorkers();
  });
}

/**
 * Builds the pages, when their sources changed.
 *
 * @param {(note: string) => void} tell
 * @returns {Promise<void>}
 */
export function buildPages(tell) {
  return makeWhenChanged(pagesStamp, pageSources, async () => {
    tell("Building (about half a minute)…");
    fs.rmSync(pagesStamp, { force: true });
    await runStep("Building", process.execPath, ["node_modules/next/dist/bin/next", "build"], {
      NODE_ENV: "production",
    });
  });
}

/**
 * @param {string} stamp a file inside what is made, so that both go together; holds the hash of the sources.
 * @param {string[]} sources
 * @param {() => Promise<void>} make
 */
async function makeWhenChanged(stamp, sources, make) {
  const isCurrent = () => readStamp(stamp) === hashSources(sources);
  if (isCurrent()) return;
  fs.mkdirSync(cacheFolder, { recursive: true });
  await withFileLock(path.join(cacheFolder, "making.lock"), async () => {
    if (isCurrent()) return;
    // Hashed before, not after: a source that changes meanwhile makes the next start do the step again.
    const hash = hashSources(sources);
    await make();
    fs.mkdirSync(path.dirname(stamp), { recursive: true });
    fs.writeFileSync(stamp, hash);
  });
}

/** @param {string[]} sources */
function hashSources(sources) {
  const hasCommands = sources.includes("app/_commands");
  // The pages hold nothing of the commands, and the commands that make things are no part of them.
  return hashFiles(root, sources, (name) =>
    name.startsWith("app/_commands/") ? hasCommands && name.endsWith(".ts") : true,
  );
}

/** @param {string} stamp */
function readStamp(stamp) {
  return fs.existsSync(stamp) ? fs.readFileSync(stamp, "utf8") : null;
}
