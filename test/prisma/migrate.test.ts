import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import pg from "pg";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { migrate } from "@/prisma/migrate.mjs";
import { administer, databaseUrl } from "@/test/setup/database";

let folder: string;
let url: string;
const name = "migrate_test";

beforeEach(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), "colla-migrations-"));
  const server = process.env.DATABASE_URL ?? "";
  await administer(databaseUrl(server, "postgres"), `DROP DATABASE IF EXISTS ${name} WITH (FORCE)`);
  await administer(databaseUrl(server, "postgres"), `CREATE DATABASE ${name}`);
  url = databaseUrl(server, name);
});

afterEach(() => fs.rmSync(folder, { recursive: true }));

function write(migration: string, sql: string): void {
  fs.mkdirSync(path.join(folder, migration), { recursive: true });
  fs.writeFileSync(path.join(folder, migration, "migration.sql"), sql);
}

async function query(sql: string): Promise<Record<string, unknown>[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return (await client.query(sql)).rows;
  } finally {
    await client.end();
  }
}

const piece = "CREATE TABLE piece (id INT PRIMARY KEY);";
const composer = "ALTER TABLE piece ADD COLUMN composer TEXT;\nINSERT INTO piece VALUES (1, 'Invented');";

describe("migrate", () => {
  test("applies what is new, in order, once", async () => {
    write("20260102_composer", composer);
    write("20260101_piece", piece);
    expect(await migrate(url, folder)).toEqual(["20260101_piece", "20260102_composer"]);
    expect(await migrate(url, folder)).toEqual([]);
    expect(await query("SELECT * FROM piece")).toEqual([{ id: 1, composer: "Invented" }]);
  });

  test("records what Prisma's own tools record", async () => {
    write("20260101_piece", piece);
    await migrate(url, folder);
    const [row] = await query("SELECT * FROM _prisma_migrations");
    // SHA-256 of the script, from `printf '%s' 'CREATE TABLE piece (id INT PRIMARY KEY);' | sha256sum`.
    const checksum = "14732d563ce216946baff9cbe87c2e8a5e3952242557da8f2a1b1a1d40e27a98";
    expect(row).toMatchObject({ checksum, migration_name: "20260101_piece", applied_steps_count: 1 });
    expect(row?.finished_at).toBeInstanceOf(Date);
  });

  test("several processes at once apply each migration once", async () => {
    write("20260101_piece", piece);
    write("20260102_composer", composer);
    const runs = await Promise.all([1, 2, 3, 4].map(() => migrate(url, folder)));
    expect(runs.flat().sort()).toEqual(["20260101_piece", "20260102_composer"]);
    expect(await query("SELECT count(*)::int AS rows FROM piece")).toEqual([{ rows: 1 }]);
  });

  test("refuses a migration that was edited after it was applied", async () => {
    write("20260101_piece", piece);
    await migrate(url, folder);
    write("20260101_piece", `${piece}\n-- a second thought`);
    await expect(migrate(url, folder)).rejects.toThrow(/20260101_piece was edited after it was applied/);
  });

  test("takes a checkout with Windows line ends for the same migration", async () => {
    write("20260101_piece", `${piece}\n${composer}\n`);
    await migrate(url, folder);
    write("20260101_piece", `${piece}\n${composer}\n`.replaceAll("\n", "\r\n"));
    expect(await migrate(url, folder)).toEqual([]);
  });

  test("keeps nothing of a migration that fails half-way, and keeps what went before", async () => {
    write("20260101_piece", piece);
    write("20260102_broken", "ALTER TABLE piece ADD COLUMN title TEXT; SELECT no_such_column FROM piece;");
    await expect(migrate(url, folder)).rejects.toThrow(/20260102_broken failed .*no_such_column/);
    expect(await query("SELECT * FROM piece")).toEqual([]);
    expect(
      await query("SELECT column_name FROM information_schema.columns WHERE table_name = 'piece'"),
    ).toEqual([{ column_name: "id" }]);
    write("20260102_broken", composer);
    expect(await migrate(url, folder)).toEqual(["20260102_broken"]);
  });

  test("refuses a database that is ahead of this version", async () => {
    write("20260101_piece", piece);
    write("20260109_later", "CREATE TABLE later (id INT)");
    await migrate(url, folder);
    fs.rmSync(path.join(folder, "20260109_later"), { recursive: true });
    await expect(migrate(url, folder)).rejects.toThrow(/20260109_later, which this version .* does not know/);
  });

  test("refuses to go on after a failure recorded by Prisma's tools", async () => {
    write("20260101_piece", piece);
    await migrate(url, folder);
    await query("UPDATE _prisma_migrations SET finished_at = NULL");
    await expect(migrate(url, folder)).rejects.toThrow(/20260101_piece failed earlier/);
  });
});
