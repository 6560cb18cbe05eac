import * as Y from "yjs";
import { roomMapNames } from "./room-keys";

/** An empty document of a room, its maps in place. */
export function openRoomDoc(): Y.Doc {
  const doc = new Y.Doc();
  for (const name of roomMapNames) doc.getMap(name);
  return doc;
}

/** A second document with the same content, which may be spoiled. */
export function copyRoomDoc(doc: Y.Doc): Y.Doc {
  const copy = openRoomDoc();
  Y.applyUpdate(copy, Y.encodeStateAsUpdate(doc));
  return copy;
}
