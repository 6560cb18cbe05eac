import fs from "node:fs";
import path from "node:path";
import { build, stop } from "esbuild";
import { bundleFolder, root } from "./folders.mjs";

/** What runs outside Next: the server, the rooms apart from it, and the demo. */
const programs = ["app/_commands/serve.ts", "realtime/main.ts", "seed/main.ts"];

/** What answers in the browser when there is no connection. */
const serviceWorker = "app/_offline/service-worker.ts";

/**
 * Bundles every program of ours that runs outside Next into the bundle folder, one file each and packages left
 * where they are: `serve.mjs`, `realtime.mjs`, `main.mjs` (the demo) and each `lib/**\/*-worker.ts` under its own name; and
 * `service-worker.js`, with its packages, for the browser.
 *
 * @returns {Promise<void>}
 */
export async function bundleEntries() {
  const entries = [...programs, ...findWorkers()].filter((file) => fs.existsSync(path.join(root, file)));
  await bundle(entries, bundleFolder);
  await bundleServiceWorker();
}

async function bundleServiceWorker() {
  await build({
    absWorkingDir: root,
    entryPoints: [serviceWorker],
    outfile: path.join(bundleFolder, "service-worker.js"),
    bundle: true,
    minify: true,
    platform: "browser",
    format: "iife",
    target: "es2022",
    logLevel: "silent",
  });
  await stop();
}

/** Bundles the worker threads only. @returns {Promise<void>} */
export async function bundleWorkers() {
  await bundle(findWorkers(), bundleFolder);
}

/** @returns {string[]} */
function findWorkers() {
  const files = /** @type {string[]} */ (fs.readdirSync(path.join(root, "lib"), { recursive: true }));
  return files.filter((file) => file.endsWith("-worker.ts")).map((file) => path.join("lib", file));
}

/**
 * @param {string[]} entries inside the project.
 * @param {string} outdir
 */
export async function bundle(entries, outdir) {
  const { metafile } = await build({
    absWorkingDir: root,
    entryPoints: entries.map((file) => ({ in: file, out: nameOf(file) })),
    outdir,
    entryNames: "[name]",
    outExtension: { ".js": ".mjs" },
    bundle: true,
    packages: "external",
    platform: "node",
    format: "esm",
    target: "node20",
    sourcemap: "linked",
    metafile: true,
    logLevel: "silent",
  });
  // Otherwise the bundler stays, waiting for more, as long as we run.
  await stop();
  return metafile;
}

/** Two programs are called `main.ts`; the rooms take the name of their folder. @param {string} file */
function nameOf(file) {
  return file === "realtime/main.ts" ? "realtime" : path.basename(file, ".ts");
}
