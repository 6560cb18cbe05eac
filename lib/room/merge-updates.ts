import * as Y from "yjs";
import { openRoomDoc } from "./open-room-doc";

/**
 * One update that stands for all the given ones, in the order of the log.
 *
 * @throws Error if the updates are not a whole log: something in them rests on an update that is missing.
 */
export function mergeUpdates(updates: readonly Uint8Array[]): Uint8Array {
  const doc = openRoomDoc();
  doc.transact(() => {
    for (const update of updates) Y.applyUpdate(doc, update);
  });
  return encodeWhole(doc);
}

/**
 * The whole document as one update; the document is given up.
 *
 * @throws Error if it waits for something that has not arrived.
 */
export function encodeWhole(doc: Y.Doc): Uint8Array {
  if (hasGap(doc)) throw new Error("the log of the room has a gap");
  const whole = Y.encodeStateAsUpdate(doc);
  doc.destroy();
  return whole;
}

/** Whether the document waits for something that has not arrived. */
export function hasGap(doc: Y.Doc): boolean {
  return doc.store.pendingStructs !== null || doc.store.pendingDs !== null;
}
