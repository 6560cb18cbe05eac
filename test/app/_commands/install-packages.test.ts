import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { isInstalled } from "@/app/_commands/install-packages.mjs";

let folder: string;

beforeEach(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), "colla-install-"));
  fs.mkdirSync(path.join(folder, "node_modules"));
});

afterEach(() => fs.rmSync(folder, { recursive: true }));

function write(file: string, packages: Record<string, object>): void {
  fs.writeFileSync(path.join(folder, file), JSON.stringify({ packages }));
}

const installedList = "node_modules/.package-lock.json";
const yjs = { version: "13.6.33", integrity: "sha512-a" };
const wanted = {
  "": { name: "colla-parte" },
  "node_modules/yjs": yjs,
  "node_modules/other-system": { version: "1.0.0", integrity: "sha512-b", optional: true },
};

test.each([
  ["nothing", {}, false],
  ["what is wanted, without the packages of other systems", { "node_modules/yjs": yjs }, true],
  ["another version", { "node_modules/yjs": { ...yjs, version: "13.6.32" } }, false],
  ["the same version with another content", { "node_modules/yjs": { ...yjs, integrity: "sha512-c" } }, false],
  ["one more than is wanted", { "node_modules/yjs": yjs, "node_modules/more": yjs }, true],
])("%s installed", (_, present, isRight) => {
  write("package-lock.json", wanted);
  write(installedList, present);
  expect(isInstalled(folder)).toBe(isRight);
});

test("an installation that was interrupted counts as none", () => {
  write("package-lock.json", wanted);
  fs.mkdirSync(path.join(folder, "node_modules", "yjs"));
  expect(isInstalled(folder)).toBe(false);
  fs.writeFileSync(path.join(folder, installedList), '{"packages": {"node_mod');
  expect(isInstalled(folder)).toBe(false);
});
