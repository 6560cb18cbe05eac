import * as Y from "yjs";
import { openRoomDoc } from "./open-room-doc";
import { readRecords } from "./read-records";
import type { RoomAnew } from "./write-anew";

/** What is written over the notes and holds wherever these notes are played. Talk and pencil marks stay where they were. */
export const carriedMaps = ["breaths", "cues"] as const;

/**
 * The marks of a room that stand, in their authors' names, written into an empty document by a page of nobody's: the
 * room of the same music for another occasion begins with them. Null when there are none.
 */
export function carryMarksOver(doc: Y.Doc): RoomAnew | null {
  const anew = openRoomDoc();
  let recordCount = 0;
  anew.transact(() => {
    for (const map of carriedMaps) {
      for (const record of readRecords(doc, map)) {
        if (record.deletedAt !== null) continue;
        anew.getMap(map).set(record.id, record);
        recordCount += 1;
      }
    }
  });
  const update = Y.encodeStateAsUpdate(anew);
  anew.destroy();
  return recordCount === 0 ? null : { update, recordCount };
}
