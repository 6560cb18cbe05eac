import { replayRoomInTurns } from "@/lib/room/history/replay-room";
import type { RoomChange } from "@/lib/room/history/room-change";
import { type Result, success } from "@/lib/score/result";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { readRoomHistoryLog } from "./read-room-history-log";

/** Everything that ever changed in a room. */
export interface RoomHistory {
  /** Epoch of the last entry; 1 in an empty room. */
  readonly epoch: number;
  /** The last entry that was read; 0 in an empty room. */
  readonly sequence: number;
  /** In the order of the log. */
  readonly changes: RoomChange[];
}

/**
 * The history of a piece's room, for those who read the discussion.
 *
 * @throws Error if the log has a gap.
 */
export async function readRoomHistory(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<RoomHistory, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId, "read-discussion");
  if (!membership.ok) return membership;
  const entries = await readRoomHistoryLog(pieceId);
  const { epoch = 1, sequence = 0 } = entries.at(-1) ?? {};
  return success({ epoch, sequence, changes: await replayRoomInTurns(entries) });
}
