"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import type { RewriteRecord } from "@/lib/store/rewrites/rewrite-record";
import { shareRewrite } from "@/lib/store/rewrites/share-rewrite";

/** Says who is to see a rewrite: `{ pieceId, rewriteId, sharing, reason }`. */
export async function shareRewriteAction(input: unknown): Promise<ActionResult<RewriteRecord>> {
  return onPiece(input, shareRewrite);
}
