"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import type { RewriteRecord } from "@/lib/store/rewrites/rewrite-record";
import { takeOffRewrite } from "@/lib/store/rewrites/take-off-rewrite";

/** Takes a rewrite off, so that the print is played: `{ pieceId, rewriteId, reason }`. */
export async function takeOffRewriteAction(input: unknown): Promise<ActionResult<RewriteRecord>> {
  return onPiece(input, takeOffRewrite);
}
