import { spawnSync } from "node:child_process";
import path from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { root } from "@/app/_commands/folders.mjs";
import { closeDatabase, database } from "@/lib/store/database";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";

let fresh: FreshDatabase;
let pieceIds: string[];

beforeAll(async () => {
  fresh = await createFreshDatabase();
  process.env.DATABASE_URL = fresh.url;
  const pieces = await database().piece.createManyAndReturn({
    data: ["Concertino", "Aria"].map((title) => ({ title, tempo: {} })),
  });
  pieceIds = pieces.map(({ id }) => id);
});

afterAll(async () => {
  await closeDatabase();
  await fresh.drop();
});

function run(...options: string[]) {
  const command = path.join(root, "app/_commands/run-script.mjs");
  const script = "app/_commands/start-rooms-anew.ts";
  const ended = spawnSync(process.execPath, [command, script, ...options], {
    cwd: root,
    encoding: "utf8",
    env: { ...process.env, DATABASE_URL: fresh.url },
  });
  return { code: ended.status, output: ended.stdout.trim().split("\n"), errors: ended.stderr };
}

const epochs = async () => {
  const pieces = await database().piece.findMany({ orderBy: { createdAt: "asc" } });
  return Object.fromEntries(pieces.map(({ title, roomEpoch }) => [title, roomEpoch]));
};

test("starts the room of one piece anew, or of all", async () => {
  const [first = ""] = pieceIds;
  expect(run(first)).toEqual({
    code: 0,
    output: [`${first} "Concertino": epoch 2 begins with 0 records.`],
    errors: "",
  });
  expect(await epochs()).toEqual({ Concertino: 2, Aria: 1 });
  const all = run("--all");
  expect([all.code, all.output.length]).toEqual([0, 2]);
  expect(await epochs()).toEqual({ Concertino: 3, Aria: 2 });
});

test("says which room stays as it is, and why, and starts the others", async () => {
  const [first = ""] = pieceIds;
  const before = await epochs();
  await database().piece.update({ where: { id: first }, data: { roomSequence: 99 } });
  const all = run("--all");
  expect(all.code).toBe(1);
  expect(all.errors).toMatch(new RegExp(`^${first} stays as it is: the log ends at \\d+ and not at 99`));
  expect(await epochs()).toEqual({ Concertino: before.Concertino, Aria: (before.Aria ?? 0) + 1 });
});

test.each([
  { options: ["no-such-piece"], says: "There is no piece no-such-piece." },
  { options: [], says: "Usage: npm run -s start-rooms-anew" },
  { options: ["--everything"], says: "Usage: npm run -s start-rooms-anew" },
])("$options changes nothing and says so", async ({ options, says }) => {
  const before = await epochs();
  const { code, output, errors } = run(...options);
  expect(code).toBe(1);
  expect([...output, errors].join("\n")).toContain(says);
  expect(await epochs()).toEqual(before);
});
