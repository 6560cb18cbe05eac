import type { Prisma } from "@/generated/prisma/client";

/** Tells locks of rooms from every other advisory lock of the database: "room" in ASCII. */
const lockClass = 0x726f6f6d;

/**
 * Keeps a room's snapshots and epochs to this transaction until it ends, also when it ends with its connection.
 * Writing in the room is not held up.
 *
 * @returns false, and holds nothing, when another transaction has the room. Rarely that is another room: names
 * are hashed to 32 bits.
 */
export async function tryLockRoom(tx: Prisma.TransactionClient, pieceId: string): Promise<boolean> {
  const [row] = await tx.$queryRaw<{ held: boolean }[]>`
    SELECT pg_try_advisory_xact_lock(${lockClass}::int, hashtext(${pieceId})) AS held`;
  return row?.held === true;
}

/** As `tryLockRoom`, but waits for its turn. */
export async function lockRoom(tx: Prisma.TransactionClient, pieceId: string): Promise<void> {
  await tx.$executeRaw`SELECT pg_advisory_xact_lock(${lockClass}::int, hashtext(${pieceId}))`;
}
