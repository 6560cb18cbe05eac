import { spawn } from "node:child_process";
import { once } from "node:events";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { createInterface } from "node:readline";
import pg from "pg";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { root } from "@/app/_commands/folders.mjs";
import { type KeptPostgres, keepEmbeddedPostgres } from "@/prisma/embedded/keep-embedded-postgres.mjs";
import { isServer, readPostmaster } from "@/prisma/embedded/postmaster.mjs";

let parent: string;
let folder: string;
let kept: KeptPostgres[];
let told: string[];
let watchers: (() => void)[];

beforeEach(() => {
  parent = fs.mkdtempSync(path.join(os.tmpdir(), "colla-kept-"));
  fs.chmodSync(parent, 0o711);
  folder = path.join(parent, "data");
  kept = [];
  told = [];
  watchers = [];
});

afterEach(async () => {
  for (const server of kept) await server.stop();
  const left = readPostmaster(path.join(folder, "postgres"));
  if (left && isServer(left.pid)) process.kill(left.pid, "SIGKILL");
  fs.rmSync(parent, { recursive: true, force: true, maxRetries: 20 });
});

function say(sentence: string): void {
  told.push(sentence);
  for (const look of watchers) look();
}

async function keep(): Promise<KeptPostgres> {
  const server = await keepEmbeddedPostgres({ folder, tell: say, onGivenUp: (error) => say(String(error)) });
  kept.push(server);
  return server;
}

/** Waits until so many sentences that match were said. */
function untilTold(wanted: RegExp, times = 1): Promise<void> {
  return new Promise((resolve) => {
    const look = () => {
      if (told.filter((sentence) => wanted.test(sentence)).length >= times) resolve();
    };
    watchers.push(look);
    look();
  });
}

async function connect(url: string): Promise<pg.Client> {
  const client = new pg.Client({ connectionString: url });
  // It will be cut off.
  client.on("error", () => {});
  await client.connect();
  return client;
}

async function query(url: string, sql: string): Promise<unknown[]> {
  const client = await connect(url);
  try {
    return (await client.query(sql)).rows;
  } finally {
    await client.end();
  }
}

const serves = /serves again/;

describe("a server that is killed", () => {
  test("is back at the same address with everything that was committed, each time", async () => {
    const server = await keep();
    await query(server.url, "CREATE TABLE kept (round INT)");
    for (const round of [1, 2, 3]) {
      await query(server.url, `INSERT INTO kept VALUES (${round})`);
      const before = server.pid();
      process.kill(before, "SIGKILL");
      await untilTold(serves, round);
      expect(server.pid()).not.toBe(before);
      expect(await query(server.url, "SELECT count(*)::int AS rounds FROM kept")).toEqual([
        { rounds: round },
      ]);
    }
  });

  test("comes back by itself when only one of its children died", async () => {
    const server = await keep();
    await query(server.url, "CREATE TABLE kept AS SELECT 1 AS one");
    const client = await connect(server.url);
    const cutOff = new Promise<void>((resolve) => client.on("end", resolve));
    const { rows } = await client.query("SELECT pg_backend_pid() AS pid");
    const before = server.pid();
    process.kill(rows[0].pid, "SIGKILL");
    await cutOff;
    await expect
      .poll(() => query(server.url, "SELECT one FROM kept").catch(() => null), { timeout: 30_000 })
      .toEqual([{ one: 1 }]);
    expect([server.pid(), told]).toEqual([before, []]);
  });

  test.runIf(process.platform === "linux")("is not held up by a child that does not go", async () => {
    const server = await keep();
    const client = await connect(server.url);
    const { rows } = await client.query("SELECT pg_backend_pid() AS pid");
    process.kill(rows[0].pid, "SIGSTOP");
    process.kill(server.pid(), "SIGKILL");
    await untilTold(serves);
    expect(await query(server.url, "SELECT 1 AS one")).toEqual([{ one: 1 }]);
    expect(isServer(rows[0].pid)).toBe(false);
    await client.end();
  });

  test("is started once by two who keep it", async () => {
    const mine = await keep();
    const other = await keepInAnotherProcess();
    process.kill(mine.pid(), "SIGKILL");
    await Promise.all([untilTold(serves), other.untilTold(serves)]);
    expect(await other.pid()).toBe(mine.pid());
    expect(isServer(mine.pid())).toBe(true);
    other.kill();
  });
});

describe("a server that was stopped", () => {
  test("stays so", async () => {
    const server = await keep();
    await server.stop();
    expect(isServer(server.pid())).toBe(false);
    expect(told).toEqual([]);
  });

  test("stays so even while it was being brought back", async () => {
    const server = await keep();
    process.kill(server.pid(), "SIGKILL");
    await untilTold(/starting it again/);
    await server.stop();
    expect(readPostmaster(path.join(folder, "postgres"))).toBeNull();
  });

  test("runs on for others when it is only left", async () => {
    const server = await keep();
    await server.leave();
    expect(await query(server.url, "SELECT 1 AS one")).toEqual([{ one: 1 }]);
  });
});

test("one that does not start any more is given up, with the reason", async () => {
  const server = await keep();
  fs.writeFileSync(path.join(folder, "postgres", "PG_VERSION"), "12\n");
  process.kill(server.pid(), "SIGKILL");
  await untilTold(/did not start: .*incompatible with server/);
  expect(isServer(server.pid())).toBe(false);
});

/** A second program on the same data. */
async function keepInAnotherProcess() {
  const program = `
    const { keepEmbeddedPostgres } = await import("./prisma/embedded/keep-embedded-postgres.mjs");
    const server = await keepEmbeddedPostgres({
      folder: ${JSON.stringify(folder)}, tell: console.log, onGivenUp: console.log,
    });
    console.log("keeping");
    process.stdin.on("data", () => console.log("pid " + server.pid()));`;
  const child = spawn(process.execPath, ["--input-type=module", "--eval", program], { cwd: root });
  const lines = createInterface({ input: child.stdout });
  const untilSaid = async (wanted: RegExp): Promise<string> => {
    for (;;) {
      const [line] = (await once(lines, "line")) as [string];
      if (wanted.test(line)) return line;
    }
  };
  await untilSaid(/keeping/);
  return {
    untilTold: untilSaid,
    pid: async () => {
      const answer = untilSaid(/^pid /);
      child.stdin.write("?");
      return Number((await answer).slice(4));
    },
    kill: () => child.kill("SIGKILL"),
  };
}
