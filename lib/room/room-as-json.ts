import type * as Y from "yjs";
import { roomMapNames } from "./room-keys";
import { sortKeys } from "./sort-keys";

/** The whole content of a room as one text that is equal for equal rooms: maps and keys in a fixed order. */
export function roomAsJson(doc: Y.Doc): string {
  return JSON.stringify(
    Object.fromEntries(
      roomMapNames.map((name) => {
        const entries = [...doc.getMap(name).entries()].sort(([a], [b]) => (a < b ? -1 : 1));
        return [name, entries.map(([key, value]) => [key, sortKeys(value)])];
      }),
    ),
  );
}
