import { closeDatabase } from "@/lib/store/database";

/** Does something in a database of the tests through the product's own use cases. */
export async function inDatabase<T>(databaseUrl: string, work: () => Promise<T>): Promise<T> {
  const before = process.env.DATABASE_URL;
  process.env.DATABASE_URL = databaseUrl;
  try {
    return await work();
  } finally {
    await closeDatabase();
    process.env.DATABASE_URL = before;
  }
}
