"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { pinPage } from "@/lib/store/page-breaks/pin-page";

/** Lets a bar begin a page of a reader's: `{ pieceId, editionNumber, reader, paper, barIndex }`. */
export async function pinPageAction(input: unknown): Promise<ActionResult<null>> {
  return onPiece(input, pinPage);
}
