import { z } from "zod";
import type { RoomChange } from "@/lib/room/history/room-change";
import { recordIdSchema } from "@/lib/room/record-id";
import { type Result, success } from "@/lib/score/result";
import { parseInput } from "@/lib/store/parse-input";
import { readRoomHistory } from "@/lib/store/room/read-room-history";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";

const recordPastSchema = z.object({
  map: z.enum(["comments", "breaths", "pencilledCuts", "cues"]),
  /** The record's key; of a pencilled cut the id that all its versions share. */
  key: recordIdSchema,
});

export type RecordPastOf = z.infer<typeof recordPastSchema>;

/** Every change of one comment (with its resolutions), breath, cue or pencilled cut, the first one first. */
export async function readRecordPast(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<RoomChange[], StoreProblem>> {
  const of = parseInput(recordPastSchema, input);
  if (!of.ok) return of;
  const history = await readRoomHistory(viewer, pieceId);
  if (!history.ok) return history;
  return success(history.value.changes.filter((change) => isOf(change, of.value)));
}

function isOf(change: RoomChange, { map, key }: RecordPastOf): boolean {
  if (map === "pencilledCuts") return change.map === map && (change.after ?? change.before)?.cutId === key;
  const maps: readonly string[] = map === "comments" ? ["comments", "resolutions"] : [map];
  return maps.includes(change.map) && change.key === key;
}
