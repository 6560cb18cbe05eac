import { spawn } from "node:child_process";
import { once } from "node:events";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import pg from "pg";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { root } from "@/app/_commands/folders.mjs";
import { isServer, readPostmaster } from "@/prisma/embedded/postmaster.mjs";
import { type EmbeddedPostgres, startEmbeddedPostgres } from "@/prisma/embedded/start-embedded-postgres.mjs";

let parent: string;
let folder: string;

beforeEach(() => {
  parent = fs.mkdtempSync(path.join(os.tmpdir(), "colla-embedded-"));
  // As in a checkout, other accounts may pass through: root's server runs under another one.
  fs.chmodSync(parent, 0o711);
  folder = path.join(parent, "data");
});

afterEach(async () => {
  const left = readPostmaster(path.join(folder, "postgres"));
  if (left && isServer(left.pid)) process.kill(left.pid, "SIGKILL");
  // The children of a killed server may still be writing their last.
  fs.rmSync(parent, { recursive: true, force: true, maxRetries: 20 });
});

async function query(server: EmbeddedPostgres, sql: string): Promise<unknown[]> {
  const client = new pg.Client({ connectionString: server.url });
  await client.connect();
  try {
    return (await client.query(sql)).rows;
  } finally {
    await client.end();
  }
}

/** Starts the server from a process that is then killed, as a crash would. */
async function startAndCrash(): Promise<void> {
  const start = `
    const { startEmbeddedPostgres } = await import("./prisma/embedded/start-embedded-postgres.mjs");
    await startEmbeddedPostgres({ folder: ${JSON.stringify(folder)} });
    process.kill(process.pid, "SIGKILL");`;
  const program = spawn(process.execPath, ["--input-type=module", "--eval", start], { cwd: root });
  await once(program, "exit");
}

describe("startEmbeddedPostgres", () => {
  test("keeps what was written from one start to the next", async () => {
    const first = await startEmbeddedPostgres({ folder });
    await query(first, "CREATE TABLE kept (word TEXT); INSERT INTO kept VALUES ('tutti')");
    await first.stop();
    expect(isServer(first.pid)).toBe(false);
    const second = await startEmbeddedPostgres({ folder });
    expect(await query(second, "SELECT * FROM kept")).toEqual([{ word: "tutti" }]);
    await second.stop();
  });

  test("lets nobody in without the password, and listens on this machine only", async () => {
    const server = await startEmbeddedPostgres({ folder, isDurable: false });
    const stranger = new URL(server.url);
    stranger.password = "guess";
    await expect(query({ ...server, url: stranger.href }, "SELECT 1")).rejects.toThrow(/password/);
    expect(await query(server, "SHOW listen_addresses")).toEqual([{ listen_addresses: "127.0.0.1" }]);
    expect(await query(server, "SHOW unix_socket_directories")).toEqual([{ unix_socket_directories: "" }]);
    expect(fs.statSync(path.join(folder, "postgres-password")).mode & 0o777).toBe(0o600);
    await server.stop();
  });

  test("attaches to the server that outlived a killed process, and can stop it", async () => {
    await startAndCrash();
    const server = await startEmbeddedPostgres({ folder });
    expect(server.isAttached).toBe(true);
    expect(await query(server, "SELECT 1 AS one")).toEqual([{ one: 1 }]);
    await server.stop();
    expect(isServer(server.pid)).toBe(false);
  });

  test("finds everything again after the server itself was killed", async () => {
    const first = await startEmbeddedPostgres({ folder });
    await query(first, "CREATE TABLE kept AS SELECT generate_series(1, 1000) AS bar");
    process.kill(first.pid, "SIGKILL");
    // Until the system has taken it away, there is something to attach to.
    await expect.poll(() => isServer(first.pid)).toBe(false);
    const second = await startEmbeddedPostgres({ folder });
    expect(second.isAttached).toBe(false);
    expect(await query(second, "SELECT count(*)::int AS bars FROM kept")).toEqual([{ bars: 1000 }]);
    await second.stop();
  });

  test("is not misled by a process file whose number belongs to another program now", async () => {
    const first = await startEmbeddedPostgres({ folder, isDurable: false });
    const file = path.join(folder, "postgres", "postmaster.pid");
    const [, ...rest] = fs.readFileSync(file, "utf8").split("\n");
    process.kill(first.pid, "SIGKILL");
    fs.writeFileSync(file, [process.pid, ...rest].join("\n"));
    const second = await startEmbeddedPostgres({ folder, isDurable: false });
    expect(second.isAttached).toBe(false);
    expect(await query(second, "SELECT 1 AS one")).toEqual([{ one: 1 }]);
    await second.stop();
  });

  test("begins anew after a first start that was interrupted", async () => {
    const unfinished = path.join(folder, "postgres.unfinished");
    fs.mkdirSync(unfinished, { recursive: true });
    fs.writeFileSync(path.join(unfinished, "PG_VERSION"), "18\n");
    const server = await startEmbeddedPostgres({ folder, isDurable: false });
    expect(await query(server, "SELECT 1 AS one")).toEqual([{ one: 1 }]);
    expect(fs.existsSync(unfinished)).toBe(false);
    await server.stop();
  });

  test("says what is missing when the password is gone", async () => {
    await (await startEmbeddedPostgres({ folder, isDurable: false })).stop();
    fs.rmSync(path.join(folder, "postgres-password"));
    await expect(startEmbeddedPostgres({ folder, isDurable: false })).rejects.toThrow(
      /^The password of the embedded database is missing \(.*postgres-password\); put it back/,
    );
  });

  test("passes on why the server did not start", async () => {
    await (await startEmbeddedPostgres({ folder, isDurable: false })).stop();
    fs.writeFileSync(path.join(folder, "postgres", "PG_VERSION"), "12\n");
    await expect(startEmbeddedPostgres({ folder, isDurable: false })).rejects.toThrow(
      /^The embedded database did not start: .*incompatible with server.* \(log: .*postgres\.log\)\.$/,
    );
  });

  test("compares letters by their code and knows capitals beyond ASCII", async () => {
    const server = await startEmbeddedPostgres({ folder, isDurable: false });
    expect(await query(server, "SELECT lower('ÉŁ') AS lower, 'Z' < 'a' AS by_code")).toEqual([
      { lower: "éł", by_code: true },
    ]);
    await server.stop();
  });
});

test.runIf(process.getuid?.() === 0)(
  "as root, data that no other account could reach are moved",
  async () => {
    fs.chmodSync(parent, 0o700);
    const server = await startEmbeddedPostgres({ folder, isDurable: false });
    try {
      expect(server.base).toMatch(/^\/var\/lib\/colla-parte-[0-9a-f]{12}$/);
      expect(await query(server, "SELECT 1 AS one")).toEqual([{ one: 1 }]);
      expect(fs.existsSync(folder)).toBe(false);
    } finally {
      await server.stop();
      fs.rmSync(server.base, { recursive: true });
    }
  },
);
