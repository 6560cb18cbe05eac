import { spawn } from "node:child_process";
import { once } from "node:events";
import fs from "node:fs";
import { createInterface } from "node:readline";
import { expect, test } from "vitest";
import { root } from "@/app/_commands/folders.mjs";
import { isServer } from "@/prisma/embedded/postmaster.mjs";
import { startThrowAwayPostgres } from "@/prisma/embedded/start-throw-away-postgres.mjs";

test("clears away what a killed process left, and then itself, but nobody else's", async () => {
  const start = `
    const { startThrowAwayPostgres } = await import("./prisma/embedded/start-throw-away-postgres.mjs");
    const { pid, folder } = await startThrowAwayPostgres();
    console.log(JSON.stringify({ pid, folder }));
    setInterval(() => {}, 60_000);`;
  const killed = spawn(process.execPath, ["--input-type=module", "--eval", start], { cwd: root });
  const [line] = await once(createInterface({ input: killed.stdout }), "line");
  const left: { pid: number; folder: string } = JSON.parse(line);
  const other = await startThrowAwayPostgres();
  expect(isServer(left.pid)).toBe(true);
  killed.kill("SIGKILL");
  await once(killed, "exit");
  const next = await startThrowAwayPostgres();
  expect(isServer(left.pid)).toBe(false);
  expect(fs.existsSync(left.folder)).toBe(false);
  expect(isServer(other.pid)).toBe(true);
  for (const { stop, folder, pid } of [next, other]) {
    await stop();
    expect(isServer(pid)).toBe(false);
    expect(fs.existsSync(folder)).toBe(false);
  }
});
