import { PrismaPg } from "@prisma/adapter-pg";
import { type Prisma, PrismaClient } from "@/generated/prisma/client";
import { databaseAddress } from "./database-address";
import { closeJournalConnections } from "./journal-connections";

/** A running transaction, or the database itself. */
export type Database = PrismaClient | Prisma.TransactionClient;

// Kept on the global object: a development server loads this module anew after each edit, and every copy
// would otherwise hold connections of its own.
const holder = globalThis as typeof globalThis & { collaDatabase?: PrismaClient };

/**
 * The database client of this process, opened at first use. Only the logs of rooms are appended to without it.
 *
 * @throws ZodError if `DATABASE_URL` names no Postgres server.
 */
export function database(): PrismaClient {
  holder.collaDatabase ??= open(databaseAddress());
  return holder.collaDatabase;
}

/** Closes every connection of this process; the next use opens new ones. */
export async function closeDatabase(): Promise<void> {
  const open = holder.collaDatabase;
  delete holder.collaDatabase;
  await Promise.all([open?.$disconnect(), closeJournalConnections()]);
}

function open(url: string): PrismaClient {
  return new PrismaClient({
    adapter: new PrismaPg({ connectionString: url, application_name: "colla-parte", max: 12 }),
    // A transaction may queue behind others that hold the same piece.
    transactionOptions: { maxWait: 20_000, timeout: 30_000 },
  });
}
