import * as Y from "yjs";

/** How far each Yjs client's writes are known to be stored: client → number of its writes. */
export type StoredClocks = ReadonlyMap<number, number>;

/** Takes what a state vector from the server tells into what was already known. */
export function noteStored(known: StoredClocks, stateVector: Uint8Array): Map<number, number> {
  const clocks = new Map(known);
  for (const [client, clock] of Y.decodeStateVector(stateVector)) {
    clocks.set(client, Math.max(clock, clocks.get(client) ?? 0));
  }
  return clocks;
}

/** How many writes in the document are not known to be stored. Each record written counts one. */
export function countUnsaved(doc: Y.Doc, stored: StoredClocks): number {
  let unsaved = 0;
  for (const [client, clock] of Y.decodeStateVector(Y.encodeStateVector(doc))) {
    unsaved += Math.max(0, clock - (stored.get(client) ?? 0));
  }
  return unsaved;
}

/** How far an update reaches, as a state vector: what is stored once the update and all before it are. */
export function clocksOf(update: Uint8Array): Uint8Array {
  return Y.encodeStateVector(Y.parseUpdateMeta(update).to);
}
