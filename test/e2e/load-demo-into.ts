import { loadDemo } from "@/seed/load-demo";
import { inDatabase } from "./in-database";

/** Loads the demo into a database of the tests, through the same use cases as `npm start`. */
export async function loadDemoInto(databaseUrl: string, password: string): Promise<void> {
  await inDatabase(databaseUrl, () => loadDemo(password));
}
