import { spawnSync } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import { generateClient } from "./build-product.mjs";
import { checkImports } from "./check-imports.mjs";
import { checkLock } from "./check-lock.mjs";
import { root } from "./folders.mjs";
import { installPackages } from "./install-packages.mjs";

/**
 * `npm run validate`: everything that can be said about the code without running it. Every check runs, so that
 * one look shows all there is to mend.
 *
 * @type {[name: string, check: () => boolean | Promise<boolean>][]}
 */
const checks = [
  ["lock file", () => report(checkLock(fs.readFileSync(path.join(root, "package-lock.json"), "utf8")))],
  ["format and lint", () => tool("@biomejs/biome/bin/biome", "check", ".")],
  ["types of routes", () => tool("next/dist/bin/next", "typegen")],
  ["types", () => tool("typescript/bin/tsc", "--noEmit")],
  ["import rules", () => report(checkImports(root))],
  ["dead code", () => tool("knip/bin/knip.js", "--no-progress", "--no-config-hints")],
  ["migrations", checkMigrations],
];

async function checkMigrations() {
  const { findMissingMigration } = await import("../../prisma/make-migration.mjs");
  const missing = await findMissingMigration();
  return report(
    missing ? [`The migrations do not make what the schema describes; missing:\n${missing}`] : [],
  );
}

/** @param {string[]} findings */
function report(findings) {
  for (const finding of findings) console.error(finding);
  return findings.length === 0;
}

/**
 * @param {string} program inside node_modules.
 * @param {...string} options
 */
function tool(program, ...options) {
  const run = spawnSync(process.execPath, [path.join("node_modules", program), ...options], {
    cwd: root,
    stdio: ["ignore", "inherit", "inherit"],
    env: { ...process.env, NEXT_TELEMETRY_DISABLED: "1" },
  });
  return run.status === 0;
}

await installPackages(console.log);
await generateClient();
/** @type {string[]} */
const failed = [];
for (const [name, check] of checks) {
  const isRight = await check();
  console.log(`${isRight ? "ok    " : "FAILED"} ${name}`);
  if (!isRight) failed.push(name);
}
if (failed.length > 0) {
  console.error(`Not valid: ${failed.join(", ")}.`);
  process.exitCode = 1;
}
