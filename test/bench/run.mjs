import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { generateClient } from "../../app/_commands/build-product.mjs";
import { bundle, bundleWorkers } from "../../app/_commands/bundle-entries.mjs";
import { cacheFolder, root } from "../../app/_commands/folders.mjs";
import { installPackages } from "../../app/_commands/install-packages.mjs";

/**
 * `npm run bench [-- NAME …]`: runs every `test/bench/*.bench.ts` (or those whose file names contain a NAME),
 * prints a table each and writes the figures to `test-results/bench/`.
 *
 * @typedef {Record<string, string | number>} Row
 * @typedef {{ name: string, run(): Promise<Row[]>, details?(): object }} Benchmark
 */

const results = path.join(root, "test-results", "bench");

/** @param {string[]} wanted */
async function run(wanted) {
  await installPackages(console.log);
  await generateClient();
  const entries = findBenchmarks(wanted);
  if (entries.length === 0) throw new RangeError(`no benchmark is named ${wanted.join(" or ") || "at all"}`);
  const folder = path.join(cacheFolder, "bench");
  await bundle(entries, folder);
  // Benchmarks that start threads of ours find them where the product has them.
  await bundleWorkers();
  fs.mkdirSync(results, { recursive: true });
  for (const entry of entries) await measure(path.join(folder, `${path.basename(entry, ".ts")}.mjs`));
}

/** @param {string[]} wanted */
function findBenchmarks(wanted) {
  return fs
    .readdirSync(path.join(root, "test", "bench"))
    .filter((file) => file.endsWith(".bench.ts"))
    .filter((file) => wanted.length === 0 || wanted.some((name) => file.includes(name)))
    .map((file) => `test/bench/${file}`)
    .sort();
}

/** @param {string} program */
async function measure(program) {
  /** @type {{ benchmark: Benchmark }} */
  const { benchmark } = await import(pathToFileURL(program).href);
  console.log(`\n${benchmark.name}`);
  const rows = await benchmark.run();
  console.table(rows);
  const file = path.join(results, `${path.basename(program, ".bench.mjs")}.json`);
  fs.writeFileSync(
    file,
    `${JSON.stringify({ name: benchmark.name, machine: machine(), rows, ...benchmark.details?.() }, null, 2)}\n`,
  );
}

function machine() {
  const [processor] = os.cpus();
  return {
    processor: processor?.model ?? "unknown",
    cores: os.cpus().length,
    memoryGigabytes: Math.round(os.totalmem() / 2 ** 30),
    system: `${os.type()} ${os.arch()}`,
    node: process.version,
    /** Of the last 1, 5 and 15 minutes: what else the machine was doing. */
    loadAverage: os.loadavg().map((load) => Number(load.toFixed(1))),
    at: new Date().toISOString(),
  };
}

run(process.argv.slice(2)).catch((error) => {
  console.error(error instanceof RangeError ? error.message : error);
  process.exitCode = 1;
});
