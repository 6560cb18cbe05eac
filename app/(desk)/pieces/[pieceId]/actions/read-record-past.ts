"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { readRecordPast } from "@/app/_data/desk/read-record-past";
import { onPiece } from "@/app/_data/on-piece";
import type { RoomChange } from "@/lib/room/history/room-change";

/** What one record of the room was before: `{ pieceId, map, key }`. */
export async function readRecordPastAction(input: unknown): Promise<ActionResult<RoomChange[]>> {
  return onPiece(input, readRecordPast);
}
