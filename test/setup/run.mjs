import { spawn } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import { generateClient } from "../../app/_commands/build-product.mjs";
import { root } from "../../app/_commands/folders.mjs";
import { installPackages } from "../../app/_commands/install-packages.mjs";
import { StartFailure } from "../../app/_commands/start-failure.mjs";

/** Where the last run's results lie, for whoever sums them up. */
const results = "test-results/vitest.json";

/**
 * `npm test` on a fresh clone: installs, makes the database client and runs every test; the set-ups of the test
 * projects start their throw-away database and build the product. What follows `npm test --` goes to vitest.
 */
async function run() {
  await installPackages(console.log);
  await generateClient();
  // What an earlier run left must not be taken for this one's.
  fs.rmSync(path.join(root, results), { force: true });
  const reporters = ["--reporter=default", "--reporter=json", `--outputFile.json=${results}`];
  const options = ["node_modules/vitest/vitest.mjs", "run", ...reporters, ...process.argv.slice(2)];
  const tests = spawn(process.execPath, options, { cwd: root, stdio: "inherit" });
  for (const signal of /** @type {const} */ (["SIGINT", "SIGTERM"]))
    process.on(signal, () => tests.kill(signal));
  tests.once("exit", (code) => {
    process.exitCode = code ?? 1;
  });
}

run().catch((error) => {
  console.error(error instanceof StartFailure ? error.message : error);
  process.exitCode = 1;
});
