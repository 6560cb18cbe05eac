import { spawnSync } from "node:child_process";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { withFileLock } from "@/app/_commands/file-lock.mjs";

let folder: string;
let lock: string;

beforeEach(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), "colla-lock-"));
  lock = path.join(folder, "work.lock");
});

afterEach(() => fs.rmSync(folder, { recursive: true }));

test("works are done one after another", async () => {
  let running = 0;
  let most = 0;
  const work = async () => {
    running += 1;
    most = Math.max(most, running);
    for (let turn = 0; turn < 5; turn += 1) await new Promise((resolve) => setImmediate(resolve));
    running -= 1;
  };
  await Promise.all([1, 2, 3].map(() => withFileLock(lock, work)));
  expect(most).toBe(1);
  expect(fs.existsSync(lock)).toBe(false);
});

test("a work that fails lets go", async () => {
  const failing = withFileLock(lock, () => Promise.reject(new Error("no paper")));
  await expect(failing).rejects.toThrow("no paper");
  expect(await withFileLock(lock, async () => "done")).toBe("done");
});

test("the lock of a process that is gone does not hold", async () => {
  const { pid } = spawnSync(process.execPath, ["--version"]);
  fs.writeFileSync(lock, String(pid));
  expect(await withFileLock(lock, async () => "done")).toBe("done");
});

test("a lock whose number belongs to another program by now does not hold", async () => {
  fs.writeFileSync(lock, String(process.pid));
  const longAgo = new Date(Date.now() - 10 * 60_000);
  fs.utimesSync(lock, longAgo, longAgo);
  expect(await withFileLock(lock, async () => "done")).toBe("done");
});

test("a process that was killed while it looked at a lock does not hold up the others", async () => {
  const { pid } = spawnSync(process.execPath, ["--version"]);
  fs.writeFileSync(lock, String(pid));
  const guard = `${lock}.guard`;
  fs.writeFileSync(guard, "");
  fs.utimesSync(guard, new Date(0), new Date(0));
  expect(await withFileLock(lock, async () => "done")).toBe("done");
  expect(fs.readdirSync(folder)).toEqual([]);
});
