import { closeDatabase } from "@/lib/store/database";
import { loadDemo } from "@/seed/load-demo";

/** Loads the demo into a database of the tests, through the same use cases as `npm start`. */
export async function loadDemoInto(databaseUrl: string, password: string): Promise<void> {
  const before = process.env.DATABASE_URL;
  process.env.DATABASE_URL = databaseUrl;
  try {
    await loadDemo(password);
  } finally {
    await closeDatabase();
    process.env.DATABASE_URL = before;
  }
}
