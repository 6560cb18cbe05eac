import { database } from "@/lib/store/database";

/**
 * What may change without anybody having done anything to a piece: counters of tries, and the pictures that are still being
 * made in the background of a piece brought a moment ago.
 */
const notCounted = ["_prisma_migrations", "RateWindow", "Engraving", "EngravedSystem"];

/** A hash of the rows of every table, to see whether anything at all was changed. */
export async function readFingerprints(): Promise<Record<string, string>> {
  const tables = await database().$queryRaw<{ name: string }[]>`
    SELECT table_name AS name FROM information_schema.tables WHERE table_schema = 'public' ORDER BY table_name`;
  const found: Record<string, string> = {};
  for (const { name } of tables.filter((table) => !notCounted.includes(table.name))) {
    const [row] = await database().$queryRawUnsafe<{ hash: string }[]>(
      `SELECT md5(coalesce(string_agg(t::text, ',' ORDER BY t::text), '')) AS hash FROM "${name}" t`,
    );
    found[name] = row?.hash ?? "";
  }
  return found;
}
