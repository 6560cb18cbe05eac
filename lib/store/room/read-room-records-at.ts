import { z } from "zod";
import { type RoomRecordsAt, roomRecordsAt } from "@/lib/room/history/room-records-at";
import { failure, type Result, success } from "@/lib/score/result";
import { parseInput } from "../parse-input";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { readRoomHistoryLog } from "./read-room-history-log";

const sequenceSchema = z
  .int("A moment of the room is a whole number.")
  .min(0, "The room begins with moment 0.")
  .max(2 ** 31 - 1, "The room has no such moment.");

/**
 * The records of a piece's room as they stood after one entry of its log, for those who read the discussion.
 *
 * @param sequence 0 for the empty room before the first entry.
 * @returns "invalid-input" for an entry that there is not.
 */
export async function readRoomRecordsAt(
  viewer: Viewer,
  pieceId: string,
  sequence: number,
): Promise<Result<RoomRecordsAt, StoreProblem>> {
  const asked = parseInput(sequenceSchema, sequence);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId, "read-discussion");
  if (!membership.ok) return membership;
  const entries = await readRoomHistoryLog(pieceId, asked.value);
  if ((entries.at(-1)?.sequence ?? 0) !== asked.value)
    return failure({ kind: "invalid-input", sentence: "The room has no such moment." });
  return success(roomRecordsAt(entries, asked.value));
}
