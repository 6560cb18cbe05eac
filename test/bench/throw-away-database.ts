import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { root } from "@/app/_commands/folders.mjs";
import { closeDatabase } from "@/lib/store/database";
import { startEmbeddedPostgres } from "@/prisma/embedded/start-embedded-postgres.mjs";
import { migrate } from "@/prisma/migrate.mjs";

/** An embedded Postgres of its own, every commit on disk, that goes when `use` is done. */
export async function withThrowAwayDatabase<T>(use: (postgres: { pid: number }) => Promise<T>): Promise<T> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "colla-bench-"));
  fs.chmodSync(folder, 0o711);
  const postgres = await startEmbeddedPostgres({ folder: path.join(folder, "database") });
  try {
    process.env.DATABASE_URL = postgres.url;
    await migrate(postgres.url, path.join(root, "prisma/migrations"));
    return await use(postgres);
  } finally {
    await closeDatabase();
    await postgres.stop();
    for (const used of new Set([folder, postgres.base])) fs.rmSync(used, { recursive: true, force: true });
  }
}
