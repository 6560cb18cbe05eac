"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { unpinPage } from "@/lib/store/page-breaks/unpin-page";

/** Takes the pin off a bar that begins a page: `{ pieceId, editionNumber, reader, paper, barIndex }`. */
export async function unpinPageAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, unpinPage);
}
