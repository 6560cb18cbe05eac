import type * as Y from "yjs";
import { failure, type Result, success } from "@/lib/score/result";
import { checkChange } from "./check-change";
import { keyOf, type RoomMapName, type RoomRecords } from "./room-keys";
import type { RoomMember } from "./room-member";
import type { RoomProblem } from "./room-problem";

/**
 * Writes one record as a member, after the same check the server makes.
 *
 * @returns the record as written, or why it may not be; then the document is as it was.
 */
export function writeRecord<Name extends RoomMapName>(
  doc: Y.Doc,
  map: Name,
  record: RoomRecords[Name],
  member: RoomMember,
  now = new Date(),
): Result<RoomRecords[Name], RoomProblem> {
  const shared = doc.getMap(map);
  const key = keyOf(map, record);
  const wellFormed = mendText(record) as RoomRecords[Name];
  const checked = checkChange(
    { map, key, before: shared.get(key), after: wellFormed, isOvertaken: false },
    member,
    now,
  );
  if (!checked.ok) return failure(checked.problem);
  shared.set(key, wellFormed);
  return success(wellFormed);
}

/**
 * The same JSON with halves of split characters replaced by U+FFFD. Yjs would replace them only on the way
 * out, and the writer would see another text than everybody else.
 */
function mendText(value: unknown): unknown {
  if (typeof value === "string") return value.replace(/\p{Surrogate}/gu, "\uFFFD");
  if (value === null || typeof value !== "object") return value;
  if (Array.isArray(value)) return value.map(mendText);
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, mendText(part)]));
}
