import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { hashFiles } from "@/app/_commands/hash-files.mjs";

let folder: string;

beforeEach(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), "colla-hash-"));
  write("lib/a.ts", "a");
  write("lib/deep/b.ts", "b");
  write("package.json", "{}");
});

afterEach(() => fs.rmSync(folder, { recursive: true }));

function write(name: string, content: string): void {
  const file = path.join(folder, name);
  fs.mkdirSync(path.dirname(file), { recursive: true });
  fs.writeFileSync(file, content);
}

const hash = () => hashFiles(folder, ["package.json", "lib", "absent"]);

test("the same files give the same hash, whatever their dates and the order asked", () => {
  const before = hash();
  fs.utimesSync(path.join(folder, "lib/a.ts"), 1, 1);
  expect(hash()).toBe(before);
  expect(hashFiles(folder, ["lib", "package.json"])).toBe(before);
});

test.each([
  ["changed", () => write("lib/deep/b.ts", "b!")],
  ["added", () => write("lib/deep/c.ts", "")],
  ["removed", () => fs.rmSync(path.join(folder, "lib/a.ts"))],
  ["moved", () => fs.renameSync(path.join(folder, "lib/a.ts"), path.join(folder, "lib/deep/a.ts"))],
  ["swapped", () => [write("lib/a.ts", "b"), write("lib/deep/b.ts", "a")]],
])("a file that is %s changes it", (_, change) => {
  const before = hash();
  change();
  expect(hash()).not.toBe(before);
});

test("files that are not wanted do not count", () => {
  const without = () => hashFiles(folder, ["lib"], (name) => name !== "lib/a.ts");
  const before = without();
  write("lib/a.ts", "something else");
  expect(without()).toBe(before);
});
