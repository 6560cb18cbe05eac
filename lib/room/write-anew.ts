import * as Y from "yjs";
import { openRoomDoc } from "./open-room-doc";
import { roomAsJson } from "./room-as-json";
import { roomMapNames } from "./room-keys";

/** A room written anew. */
export interface RoomAnew {
  /** A Yjs update (v1) that rests on nothing. */
  readonly update: Uint8Array;
  readonly recordCount: number;
}

/**
 * The records of a room as they stand, deleted ones among them, written into an empty document by a page of
 * nobody's. How they came about is left behind.
 *
 * @throws Error if what was written is not what stands in `doc`.
 */
export function writeAnew(doc: Y.Doc): RoomAnew {
  const anew = openRoomDoc();
  let recordCount = 0;
  anew.transact(() => {
    for (const map of roomMapNames) {
      for (const [key, record] of doc.getMap(map).entries()) {
        anew.getMap(map).set(key, record);
        recordCount += 1;
      }
    }
  });
  const update = Y.encodeStateAsUpdate(anew);
  anew.destroy();
  const read = openRoomDoc();
  Y.applyUpdate(read, update);
  if (roomAsJson(read) !== roomAsJson(doc)) throw new Error("the room written anew is another");
  read.destroy();
  return { update, recordCount };
}
