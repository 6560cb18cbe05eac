import { spawn } from "node:child_process";
import { once } from "node:events";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { createInterface } from "node:readline";
import { describe, expect, test } from "vitest";
import { prepareBinaries } from "@/prisma/embedded/binaries.mjs";
import { findLivingPostmaster, isServer, readPostmaster } from "@/prisma/embedded/postmaster.mjs";

/** A data folder whose `postmaster.pid` reads as given. */
function withPidFile<T>(lines: (string | number)[], work: (data: string) => T): T {
  const data = fs.mkdtempSync(path.join(os.tmpdir(), "colla-pid-"));
  try {
    fs.writeFileSync(path.join(data, "postmaster.pid"), `${lines.join("\n")}\n`);
    return work(data);
  } finally {
    fs.rmSync(data, { recursive: true });
  }
}

// PostgreSQL 18 manual, "Database File Layout" and `src/include/utils/pidfile.h`: the lines of postmaster.pid.
const lines = (pid: number, state: string) => [
  pid,
  "/data",
  1764057600,
  41234,
  "",
  "127.0.0.1",
  "0 0",
  state,
];

describe("readPostmaster", () => {
  test("reads process, port and state", () => {
    expect(withPidFile(lines(77, "ready   "), readPostmaster)).toEqual({
      pid: 77,
      port: 41234,
      state: "ready",
    });
  });

  test.each([
    ["empty", [""]],
    ["cut off", ["x"]],
    ["from the time before there is a process", [0]],
  ])("a file that is %s names no server", (_, text) => {
    expect(withPidFile(text, readPostmaster)).toBeNull();
  });
});

test("a process of another name is no server, and its file is removed", () => {
  withPidFile(lines(process.pid, "ready"), (data) => {
    expect(findLivingPostmaster(data)).toBeNull();
    expect(fs.existsSync(path.join(data, "postmaster.pid"))).toBe(false);
  });
});

test.runIf(process.platform === "linux")("a dead server that nobody collected is no server", async () => {
  const { postgres } = prepareBinaries({ base: os.tmpdir(), otherAccount: false });
  // The shell becomes `sleep`, which never asks after the child that it was given. The child ends only then: a shell does ask.
  const child = `until grep -q sleep /proc/$$/comm; do :; done; exec "${postgres}" --version >/dev/null`;
  const keeper = spawn("sh", ["-c", `(${child}) & echo $!; exec sleep 60`]);
  const [line] = await once(createInterface({ input: keeper.stdout }), "line");
  const pid = Number(line);
  await expect
    .poll(() => fs.readFileSync(`/proc/${pid}/stat`, "utf8"), { timeout: 30_000 })
    .toMatch(/\(postgres\) Z/);
  expect(isServer(pid)).toBe(false);
  keeper.kill("SIGKILL");
});
