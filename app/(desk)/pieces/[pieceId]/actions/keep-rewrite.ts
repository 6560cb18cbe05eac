"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { keepRewrite } from "@/lib/store/rewrites/keep-rewrite";
import type { RewriteRecord } from "@/lib/store/rewrites/rewrite-record";

/** Keeps what the pianist plays instead: `{ pieceId, terms, sharing, replaces, reason }`. */
export async function keepRewriteAction(input: unknown): Promise<ActionResult<RewriteRecord>> {
  return onPiece(input, keepRewrite);
}
