import { type BreathRecord, breathRecordSchema } from "./breath-record";
import { type CommentRecord, commentRecordSchema } from "./comment-record";
import { type CueRecord, cueRecordSchema } from "./cue-record";
import { type PencilledVersionRecord, pencilledVersionRecordSchema } from "./pencilled-version-record";
import { type ResolutionRecord, resolutionRecordSchema } from "./resolution-record";

/** The record that each map of a room holds. */
export interface RoomRecords {
  comments: CommentRecord;
  resolutions: ResolutionRecord;
  breaths: BreathRecord;
  pencilledCuts: PencilledVersionRecord;
  cues: CueRecord;
}

export type RoomMapName = keyof RoomRecords;

/** The maps of a room's shared document: flat, keyed by stable ids, plain JSON values. There are no others. */
export const roomMapNames = [
  "comments",
  "resolutions",
  "breaths",
  "pencilledCuts",
  "cues",
] as const satisfies readonly RoomMapName[];

export const recordSchemas = {
  comments: commentRecordSchema,
  resolutions: resolutionRecordSchema,
  breaths: breathRecordSchema,
  pencilledCuts: pencilledVersionRecordSchema,
  cues: cueRecordSchema,
} as const;

/** The key a record must stand under in its map. */
export function keyOf<Name extends RoomMapName>(map: Name, record: RoomRecords[Name]): string {
  return map === "resolutions" ? (record as ResolutionRecord).commentId : (record as { id: string }).id;
}
