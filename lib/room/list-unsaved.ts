import type * as Y from "yjs";
import { readRecord } from "./check-change";
import { roomMapNames } from "./room-keys";
import type { RoomWrite } from "./room-write";
import type { StoredClocks } from "./stored-clocks";

/** A record that was written here and is not known to be stored. */
export type UnsavedRecord = RoomWrite;

/** The records whose latest writing is not known to be stored. */
export function listUnsaved(doc: Y.Doc, stored: StoredClocks): UnsavedRecord[] {
  return roomMapNames.flatMap((map) => {
    const unsaved: UnsavedRecord[] = [];
    // `_map` tells which write each value came from; the public interface tells only the values.
    for (const [key, item] of doc.getMap(map)._map) {
      if (item.deleted || item.id.clock < (stored.get(item.id.client) ?? 0)) continue;
      const read = readRecord(map, key, doc.getMap(map).get(key));
      // The name of the map decides the kind of record, so the two belong together.
      if (read.ok) unsaved.push({ map, key, record: read.value } as UnsavedRecord);
    }
    return unsaved;
  });
}
