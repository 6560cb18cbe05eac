"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { releaseRestNeed } from "@/lib/store/rests/release-rest-need";
import type { RestNeedRecord } from "@/lib/store/rests/rest-need-record";

/** Lets a needed rest go: `{ pieceId, needId }`. */
export async function releaseRestNeedAction(input: unknown): Promise<ActionResult<RestNeedRecord>> {
  return onPiece(input, releaseRestNeed);
}
