import pg from "pg";
import { expect, test } from "vitest";
import { createFreshDatabase } from "@/test/setup/fresh-database";

async function names(url: string): Promise<string[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    const { rows } = await client.query(
      "SELECT tablename FROM pg_tables WHERE schemaname = 'public' ORDER BY 1",
    );
    return rows.map((row) => row.tablename);
  } finally {
    await client.end();
  }
}

test("fresh databases are migrated, separate and gone after drop", async () => {
  const [one, two] = await Promise.all([createFreshDatabase(), createFreshDatabase()]);
  expect(one.url).not.toBe(two.url);
  expect(await names(one.url)).toContain("_prisma_migrations");
  const client = new pg.Client({ connectionString: one.url });
  client.on("error", () => {}); // drop() ends this connection from the other side
  await client.connect();
  await client.query("CREATE TABLE only_here (id INT)");
  expect(await names(two.url)).not.toContain("only_here");
  await one.drop();
  await expect(names(one.url)).rejects.toThrow(/does not exist/);
  await two.drop();
});
