import type * as Y from "yjs";
import { comparePositions } from "@/lib/score/position";
import type { Breath } from "./breath";
import { toPosition } from "./position-record";
import { readRecords } from "./read-records";

/** The breaths that stand, in written order. */
export function readBreaths(doc: Y.Doc): Breath[] {
  return readRecords(doc, "breaths")
    .filter((record) => record.deletedAt === null)
    .map(({ id, authorId, at }) => ({ id, authorId, at: toPosition(at) }))
    .sort((a, b) => comparePositions(a.at, b.at) || (a.id < b.id ? -1 : 1));
}
