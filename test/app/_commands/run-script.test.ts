import { spawnSync } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { cacheFolder, root } from "@/app/_commands/folders.mjs";

const folder = path.join(cacheFolder, "run-script-test");
const program = path.join(folder, "say.ts");

beforeEach(() => fs.mkdirSync(folder, { recursive: true }));

afterEach(() => {
  fs.rmSync(folder, { recursive: true });
  for (const made of ["say.mjs", "say.mjs.map", "say.sources.json"])
    fs.rmSync(path.join(cacheFolder, "scripts", made), { force: true });
});

function run(...options: string[]) {
  const command = path.join(root, "app/_commands/run-script.mjs");
  const ended = spawnSync(process.execPath, [command, path.relative(root, program), ...options], {
    cwd: root,
    encoding: "utf8",
  });
  return { code: ended.status, output: ended.stdout, errors: ended.stderr };
}

test("runs TypeScript with its options, and anew when a source changes", () => {
  fs.writeFileSync(path.join(folder, "word.ts"), 'export const word: string = "tutti";');
  fs.writeFileSync(
    program,
    'import { word } from "./word";\nconsole.log(word, ...process.argv.slice(2));\nprocess.exitCode = 3;',
  );
  expect(run("a", "--json")).toEqual({ code: 3, output: "tutti a --json\n", errors: "" });
  fs.writeFileSync(path.join(folder, "word.ts"), 'export const word: string = "soli";');
  expect(run()).toEqual({ code: 3, output: "soli\n", errors: "" });
});

test("is not bundled again while nothing changes", () => {
  fs.writeFileSync(program, 'console.log("once");');
  run();
  const bundled = path.join(cacheFolder, "scripts", "say.mjs");
  fs.writeFileSync(bundled, 'console.log("the bundle itself");');
  expect(run().output).toBe("the bundle itself\n");
});
