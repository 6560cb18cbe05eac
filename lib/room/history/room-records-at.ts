import * as Y from "yjs";
import { hasGap } from "../merge-updates";
import { openRoomDoc } from "../open-room-doc";
import { readRecords } from "../read-records";
import { type RoomMapName, type RoomRecords, roomMapNames } from "../room-keys";
import { splitEpochs } from "./replay-room";
import type { RoomHistoryEntry } from "./room-history-entry";

/** The records of every map of a room at one time, deleted ones among them, each list in the order of its keys. */
export type RoomRecordsAt = { readonly [Name in RoomMapName]: readonly RoomRecords[Name][] };

/**
 * The records as they stood after one entry of the log.
 *
 * @param entries the log, in order, from its beginning or the beginning of that entry's epoch.
 * @param sequence 0 for the empty room before the first entry.
 * @throws Error if the log has a gap.
 */
export function roomRecordsAt(entries: readonly RoomHistoryEntry[], sequence: number): RoomRecordsAt {
  const known = entries.filter((entry) => entry.sequence <= sequence);
  const doc = openRoomDoc();
  doc.transact(() => {
    for (const { update } of splitEpochs(known).at(-1) ?? []) Y.applyUpdate(doc, update);
  });
  if (hasGap(doc)) throw new Error("the log of the room has a gap");
  const records = listRecords(doc);
  doc.destroy();
  return records;
}

/** The records of a document as they stand. */
export function listRecords(doc: Y.Doc): RoomRecordsAt {
  const lists = roomMapNames.map((map) => [map, readRecords(doc, map).sort(compareKeys)]);
  // Each name is given its own map's records.
  return Object.fromEntries(lists) as RoomRecordsAt;
}

function compareKeys(a: object, b: object): number {
  return keyIn(a) < keyIn(b) ? -1 : 1;
}

function keyIn(record: { id?: string; commentId?: string }): string {
  return record.id ?? record.commentId ?? "";
}
