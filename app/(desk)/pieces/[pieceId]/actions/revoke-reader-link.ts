"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { revokeReaderLink } from "@/lib/store/readers/revoke-reader-link";

/** Makes a reader's link useless: `{ pieceId, readerLinkId }`. */
export async function revokeReaderLinkAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, revokeReaderLink);
}
