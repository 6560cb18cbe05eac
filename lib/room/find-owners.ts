import type * as Y from "yjs";
import { roomMapNames } from "./room-keys";

/**
 * Which person each Yjs client's writes belong to, as far as the records that stand tell: a record is written
 * by its author alone, so the client that wrote it is theirs.
 */
export function findOwners(doc: Y.Doc): Map<number, string> {
  const owners = new Map<number, string>();
  for (const map of roomMapNames) {
    // `_map` tells which write each value came from; the public interface tells only the values.
    for (const [key, item] of doc.getMap(map)._map) {
      const record = doc.getMap(map).get(key) as { authorId?: string; byId?: string } | undefined;
      const owner = record?.authorId ?? record?.byId;
      if (owner !== undefined) owners.set(item.id.client, owner);
    }
  }
  return owners;
}
