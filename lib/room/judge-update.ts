import type * as Y from "yjs";
import { failure, type Result, success } from "@/lib/score/result";
import { checkChange } from "./check-change";
import { findChangedRecords, type RecordChange, type TriedUpdate } from "./find-changed-records";
import { maxRecords, maxUpdateBytes } from "./room-limits";
import type { RoomMember } from "./room-member";
import type { RoomProblem } from "./room-problem";

/** Which person a Yjs client's writes belong to; null when nobody is known to have used it. */
export type OwnerOf = (clientId: number) => string | null;

/**
 * The one gate into a room: whether this update of this member may be stored.
 *
 * Yjs takes two writes with the same client and clock for one and the same. Nobody may therefore number their
 * writes as another person's: the other's next writes would be taken for known, and lost.
 *
 * @param before the document as it is stored; only read.
 * @param scratch a copy of it; holds the update afterwards, and is spoiled after a problem.
 */
export function judgeUpdate(
  before: Y.Doc,
  scratch: Y.Doc,
  update: Uint8Array,
  member: RoomMember,
  ownerOf: OwnerOf,
  now = new Date(),
): Result<TriedUpdate, RoomProblem> {
  if (update.byteLength > maxUpdateBytes) {
    return failure({ kind: "update-too-large", bytes: update.byteLength, limit: maxUpdateBytes });
  }
  const tried = findChangedRecords(before, scratch, update);
  if (!tried.ok) return tried;
  const { addition, changes, clocks } = tried.value;
  if (addition === null) return tried;
  // A reader changes nothing at all, not even what nobody would see.
  if (member.role === "reader") return failure({ kind: "reads-only" });
  if (changes.length === 0) return failure({ kind: "unknown-content", name: "no record" });
  if (isNumberedAsAnother(clocks, member, ownerOf)) return failure({ kind: "not-your-page" });
  for (const change of changes) {
    const checked = checkChange(change, member, now);
    if (!checked.ok) return checked;
  }
  const full = findFullMap(scratch, changes);
  return full === null ? success(tried.value) : failure(full);
}

function isNumberedAsAnother(
  clocks: ReadonlyMap<number, number>,
  member: RoomMember,
  ownerOf: OwnerOf,
): boolean {
  for (const clientId of clocks.keys()) {
    const owner = ownerOf(clientId);
    if (owner !== null && owner !== member.userId) return true;
  }
  return false;
}

function findFullMap(scratch: Y.Doc, changes: readonly RecordChange[]): RoomProblem | null {
  for (const { map, key, before } of changes) {
    // `size` would walk the whole map; nothing is ever erased from it, so that what it knows of is what it holds.
    if (before === undefined && scratch.getMap(map)._map.size > maxRecords[map]) {
      return { kind: "room-full", place: { map, key }, limit: maxRecords[map] };
    }
  }
  return null;
}
