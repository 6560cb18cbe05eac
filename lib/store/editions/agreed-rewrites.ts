import type { Prisma } from "@/generated/prisma/client";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";

/**
 * The rewrites that both players have agreed to, for the edition that is being made. There is no place yet where they
 * are put forward and answered, so there are none.
 */
export function findAgreedRewrites(
  _pieceId: string,
  _tx: Prisma.TransactionClient,
): Promise<readonly RewriteTerms[]> {
  return Promise.resolve([]);
}
