import type * as Y from "yjs";
import { comparePositions } from "@/lib/score/position";
import type { Cue } from "./cue";
import { toPosition } from "./position-record";
import { readRecords } from "./read-records";

/** The cues that stand, in written order. */
export function readCues(doc: Y.Doc): Cue[] {
  return readRecords(doc, "cues")
    .filter((record) => record.deletedAt === null)
    .map(({ id, authorId, at, text }) => ({ id, authorId, at: toPosition(at), text }))
    .sort((a, b) => comparePositions(a.at, b.at) || (a.id < b.id ? -1 : 1));
}
