import type { CommentRecord } from "../comment-record";
import type { PencilledVersionRecord } from "../pencilled-version-record";
import type { RoomChange } from "./room-change";
import type { RoomNames } from "./say-room-change";

/** Finds comments and pencilled versions among the changes of a room's whole history, as they last were. */
export function findInChanges(
  changes: readonly RoomChange[],
): Pick<RoomNames, "findComment" | "findVersion"> {
  const comments = new Map<string, CommentRecord>();
  const versions = new Map<string, PencilledVersionRecord>();
  for (const change of changes) {
    if (change.after === null || change.isOvertaken) continue;
    if (change.map === "comments") comments.set(change.key, change.after);
    if (change.map === "pencilledCuts") versions.set(change.key, change.after);
  }
  return {
    findComment: (id) => comments.get(id) ?? null,
    findVersion: (id) => versions.get(id) ?? null,
  };
}
