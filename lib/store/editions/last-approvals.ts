import type { Prisma } from "@/generated/prisma/client";
import { type EditionContent, readEditionContent } from "@/lib/edition/edition-content";
import { hashText } from "@/lib/edition/hash-terms";

/** The last yes of a player to freezing something, whether it still holds or not. */
export interface LastApproval {
  readonly userId: string;
  readonly at: Date;
  /** Of what was agreed to. */
  readonly hash: string;
  /** What was agreed to; null where it was not kept. */
  readonly content: EditionContent | null;
  /** Whether it was ended: taken back, overtaken by a change, or settled by the edition it made. */
  readonly isEnded: boolean;
  /** Whether the player took it back themselves. */
  readonly isTakenBack: boolean;
}

/** The last yes of each of these players; whoever never gave one has none. */
export async function findLastApprovals(
  tx: Prisma.TransactionClient,
  pieceId: string,
  userIds: readonly string[],
): Promise<LastApproval[]> {
  const found: LastApproval[] = [];
  for (const userId of userIds) {
    const row = await tx.approval.findFirst({
      where: { pieceId, userId },
      orderBy: [{ at: "desc" }, { id: "desc" }],
    });
    if (!row) continue;
    const { at, contentHash: hash, endedAt } = row;
    const takenBack = endedAt && (await isTakenBack(tx, { pieceId, userId, at }));
    const text = row.content ?? (await findFrozen(tx, pieceId, hash));
    found.push({
      userId,
      at,
      hash,
      content: readContent(text, hash),
      isEnded: endedAt !== null,
      isTakenBack: takenBack ?? false,
    });
  }
  return found;
}

async function isTakenBack(
  tx: Prisma.TransactionClient,
  { pieceId, userId, at }: { pieceId: string; userId: string; at: Date },
): Promise<boolean> {
  const count = await tx.auditEntry.count({
    where: { pieceId, userId, what: "approval withdrawn", at: { gte: at } },
  });
  return count > 0;
}

async function findFrozen(
  tx: Prisma.TransactionClient,
  pieceId: string,
  hash: string,
): Promise<string | null> {
  const edition = await tx.edition.findFirst({ where: { pieceId, hash }, select: { content: true } });
  return edition?.content ?? null;
}

/** @throws Error if the stored text is not the one that was hashed: then the database was changed by hand. */
function readContent(text: string | null, hash: string): EditionContent | null {
  if (text === null) return null;
  if (hashText(text) !== hash) throw new Error(`what was agreed to as ${hash} is not what is stored`);
  return readEditionContent(text);
}
