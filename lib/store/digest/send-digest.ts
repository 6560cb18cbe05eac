import type { Prisma } from "@/generated/prisma/client";
import { database } from "../database";
import type { DigestMark, DueDigest } from "./due-digest";

/** Longer than a mail server is given to answer. */
const transactionMilliseconds = 90_000;

/**
 * Hands a message over and marks its news as told.
 *
 * The marks are written first, but become true only with the commit, after `handOver` has resolved. So:
 * - a crash before the message is handed over leaves no marks, and the next round sends it: nothing is lost;
 * - a crash between the handing over and the commit leaves no marks either, and the message is sent once more. It has
 *   the same id then (`DueDigest.key`), by which a folder keeps one file and mail programs show one message;
 * - a database that takes no marks refuses them before anything is handed over: nothing is sent again and again;
 * - two servers that found the same message wait for each other at the person's row, and the second finds marks that
 *   are not those it started from.
 *
 * @returns "overtaken" when the person was told meanwhile, wants no messages any more, or left one of the pieces:
 * nothing was handed over, and the next round looks again.
 */
export async function sendDigest(
  digest: DueDigest,
  handOver: () => Promise<void>,
): Promise<"sent" | "overtaken"> {
  return database().$transaction(
    async (tx) => {
      if (!(await isStillDue(tx, digest))) return "overtaken";
      await mark(tx, digest);
      await handOver();
      return "sent";
    },
    { timeout: transactionMilliseconds },
  );
}

async function isStillDue(tx: Prisma.TransactionClient, { userId, pieces }: DueDigest): Promise<boolean> {
  const wanting = await tx.$queryRaw<unknown[]>`
    SELECT 1 AS held FROM "User" WHERE "id" = ${userId} AND "wantsDigest" FOR NO KEY UPDATE`;
  if (wanting.length === 0) return false;
  const pieceId = { in: pieces.map((piece) => piece.pieceId) };
  const belongsTo = await tx.member.count({
    where: { userId, pieceId, removedAt: null, piece: { deletedAt: null } },
  });
  if (belongsTo < pieces.length) return false;
  const found = await tx.digest.findMany({ where: { userId, pieceId } });
  return pieces.every((piece) =>
    isSameMark(piece.before, found.find((row) => row.pieceId === piece.pieceId) ?? null),
  );
}

function isSameMark(a: DigestMark | null, b: DigestMark | null): boolean {
  return a?.sequence === b?.sequence && a?.at.getTime() === b?.at.getTime();
}

async function mark(tx: Prisma.TransactionClient, { userId, pieces }: DueDigest): Promise<void> {
  for (const { pieceId, after } of pieces) {
    const { sequence, at } = after;
    await tx.digest.upsert({
      where: { pieceId_userId: { pieceId, userId } },
      create: { pieceId, userId, sequence, at },
      update: { sequence, at },
    });
  }
}
