import { PrismaPg } from "@prisma/adapter-pg";
import { z } from "zod";
import { type Prisma, PrismaClient } from "@/generated/prisma/client";

/** A running transaction, or the database itself. */
export type Database = PrismaClient | Prisma.TransactionClient;

// Kept on the global object: a development server loads this module anew after each edit, and every copy
// would otherwise hold connections of its own.
const holder = globalThis as typeof globalThis & { collaDatabase?: PrismaClient };

const environmentSchema = z.object({
  DATABASE_URL: z
    .string()
    .regex(/^postgres(ql)?:\/\//, "DATABASE_URL is not the address of a Postgres server."),
});

/**
 * The only database client of this process, opened at first use.
 *
 * @throws ZodError if `DATABASE_URL` names no Postgres server.
 */
export function database(): PrismaClient {
  holder.collaDatabase ??= open(environmentSchema.parse(process.env).DATABASE_URL);
  return holder.collaDatabase;
}

/** Closes the client; the next use opens one anew. */
export async function closeDatabase(): Promise<void> {
  const open = holder.collaDatabase;
  delete holder.collaDatabase;
  await open?.$disconnect();
}

function open(url: string): PrismaClient {
  return new PrismaClient({
    adapter: new PrismaPg({ connectionString: url, application_name: "colla-parte", max: 12 }),
    // A transaction may queue behind others that hold the same piece.
    transactionOptions: { maxWait: 20_000, timeout: 30_000 },
  });
}
