import { spawnSync } from "node:child_process";

const folders = ["app", "lib", "realtime", "seed", "prisma", "test"];

/**
 * What breaks the import rules of the house. The checker passes happily when it cannot read the sources, so
 * having looked at nothing is a finding too.
 *
 * @param {string} root the project's folder.
 * @returns {string[]} one line each; empty when all is well.
 */
export function checkImports(root) {
  const program = "node_modules/dependency-cruiser/bin/dependency-cruise.mjs";
  const options = [program, "--config", ".dependency-cruiser.cjs", "--output-type", "json", ...folders];
  const run = spawnSync(process.execPath, options, { cwd: root, encoding: "utf8", maxBuffer: 2 ** 28 });
  if (run.error || !run.stdout)
    return [`The import checker did not run: ${run.error?.message ?? run.stderr}`];
  /** @type {{ summary: { totalCruised: number, violations: { rule: { name: string }, from: string, to: string }[] }, modules: { source: string }[] }} */
  const { summary, modules } = JSON.parse(run.stdout);
  const own = modules.filter(({ source }) => folders.some((folder) => source.startsWith(`${folder}/`)));
  if (summary.totalCruised === 0 || own.length === 0)
    return ["The import checker looked at 0 of our modules."];
  return summary.violations.map(({ rule, from, to }) => `${rule.name}: ${from} → ${to}`);
}
