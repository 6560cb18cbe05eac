import type * as Y from "yjs";
import { readRecord } from "./check-change";
import type { RoomMapName, RoomRecords } from "./room-keys";

/** Every valid record of one map. What is not one is passed over: the server lets nothing else in. */
export function readRecords<Name extends RoomMapName>(doc: Y.Doc, map: Name): RoomRecords[Name][] {
  const records: RoomRecords[Name][] = [];
  doc.getMap(map).forEach((value, key) => {
    const read = readRecord(map, key, value);
    if (read.ok) records.push(read.value);
  });
  return records;
}

/** One record, or null when it is not there. */
export function findRecord<Name extends RoomMapName>(
  doc: Y.Doc,
  map: Name,
  key: string,
): RoomRecords[Name] | null {
  const read = readRecord(map, key, doc.getMap(map).get(key));
  return read.ok ? read.value : null;
}
