"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { bringBackRewrite } from "@/lib/store/rewrites/bring-back-rewrite";
import type { RewriteRecord } from "@/lib/store/rewrites/rewrite-record";

/** Brings a rewrite back that was taken off: `{ pieceId, rewriteId }`. */
export async function bringBackRewriteAction(input: unknown): Promise<ActionResult<RewriteRecord>> {
  return onPiece(input, bringBackRewrite);
}
