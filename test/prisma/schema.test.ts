import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { compareDatabaseToSchema } from "@/prisma/schema-engine.mjs";
import { createFreshDatabase } from "@/test/setup/fresh-database";

test("the migrations make exactly what the schema describes", async () => {
  const database = await createFreshDatabase();
  try {
    const schema = fileURLToPath(new URL("../../prisma/schema.prisma", import.meta.url));
    expect(await compareDatabaseToSchema(database.url, schema)).toBe("");
  } finally {
    await database.drop();
  }
});
