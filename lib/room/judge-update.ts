import type * as Y from "yjs";
import { failure, type Result, success } from "@/lib/score/result";
import { checkChange } from "./check-change";
import { findChangedRecords, type RecordChange, type TriedUpdate } from "./find-changed-records";
import { maxRecords, maxUpdateBytes } from "./room-limits";
import type { RoomMember } from "./room-member";
import type { RoomProblem } from "./room-problem";

/**
 * The one gate into a room: whether this update of this member may be stored.
 *
 * @param before the document as it is stored; only read.
 * @param scratch a copy of it; holds the update afterwards, and is spoiled after a problem.
 */
export function judgeUpdate(
  before: Y.Doc,
  scratch: Y.Doc,
  update: Uint8Array,
  member: RoomMember,
  now = new Date(),
): Result<TriedUpdate, RoomProblem> {
  if (update.byteLength > maxUpdateBytes) {
    return failure({ kind: "update-too-large", bytes: update.byteLength, limit: maxUpdateBytes });
  }
  const tried = findChangedRecords(before, scratch, update);
  if (!tried.ok) return tried;
  // A reader changes nothing at all, not even what nobody would see.
  if (member.role === "reader" && tried.value.addition !== null) return failure({ kind: "reads-only" });
  for (const change of tried.value.changes) {
    const checked = checkChange(change, member, now);
    if (!checked.ok) return checked;
  }
  const full = findFullMap(scratch, tried.value.changes);
  return full === null ? success(tried.value) : failure(full);
}

function findFullMap(scratch: Y.Doc, changes: readonly RecordChange[]): RoomProblem | null {
  for (const { map, key, before } of changes) {
    if (before === undefined && scratch.getMap(map).size > maxRecords[map]) {
      return { kind: "room-full", place: { map, key }, limit: maxRecords[map] };
    }
  }
  return null;
}
