import * as Y from "yjs";
import { roomMapNames } from "./room-keys";

/**
 * An empty document of a room, its maps in place.
 *
 * @param keepsOverwritten whether it keeps values that Yjs has set aside, instead of forgetting them.
 */
export function openRoomDoc({ keepsOverwritten = false } = {}): Y.Doc {
  // The name is only for documents inside documents; one made at random costs more than all the rest.
  const doc = new Y.Doc({ guid: "room", gc: !keepsOverwritten });
  for (const name of roomMapNames) doc.getMap(name);
  return doc;
}

/**
 * A second document with the same content, which may be spoiled. What is written to it and at once overtaken by what
 * stands is kept in it, so that it comes out of it whole: otherwise the log would never see it.
 */
export function copyRoomDoc(doc: Y.Doc): Y.Doc {
  const copy = openRoomDoc({ keepsOverwritten: true });
  Y.applyUpdate(copy, Y.encodeStateAsUpdate(doc));
  return copy;
}
