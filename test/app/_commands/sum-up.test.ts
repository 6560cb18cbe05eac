import { spawnSync } from "node:child_process";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { root } from "@/app/_commands/folders.mjs";

let folder: string;

beforeEach(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), "colla-sum-"));
});

afterEach(() => fs.rmSync(folder, { recursive: true }));

function sumUp(file: string): { line: string; code: number | null } {
  const run = spawnSync(process.execPath, [path.join(root, ".ci/sum-up.mjs"), file], { encoding: "utf8" });
  return { line: run.stdout.trim(), code: run.status };
}

const passed = { status: "passed" };
const failed = { status: "failed" };
const skipped = { status: "skipped" };

test.each([
  [
    "all is well",
    [{ status: "passed", assertionResults: [passed, passed, skipped] }],
    "2 passed, 0 failed",
    0,
  ],
  ["a test failed", [{ status: "failed", assertionResults: [passed, failed] }], "1 passed, 1 failed", 1],
  [
    "a file could not be loaded",
    [
      { status: "passed", assertionResults: [passed] },
      { status: "failed", assertionResults: [] },
    ],
    "1 passed, 1 failed",
    1,
  ],
  ["nothing ran", [], "0 passed, 0 failed", 1],
])("%s", (_, testResults, line, code) => {
  const file = path.join(folder, "vitest.json");
  fs.writeFileSync(file, JSON.stringify({ testResults }));
  expect(sumUp(file)).toEqual({ line, code });
});

test("no results are a failure", () => {
  expect(sumUp(path.join(folder, "none.json"))).toEqual({ line: "0 passed, 1 failed", code: 1 });
});
