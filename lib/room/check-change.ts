import { failure, type Result, success } from "@/lib/score/result";
import type { BreathRecord } from "./breath-record";
import type { CommentRecord } from "./comment-record";
import type { CueRecord } from "./cue-record";
import type { RecordChange } from "./find-changed-records";
import type { PencilledVersionRecord } from "./pencilled-version-record";
import { isPlainJson } from "./plain-json";
import type { ResolutionRecord } from "./resolution-record";
import { keyOf, type RoomMapName, type RoomRecords, recordSchemas } from "./room-keys";
import { maxClockLeadMs } from "./room-limits";
import { canComment, canMarkBreaths, canPencil, canWriteCues, type RoomMember } from "./room-member";
import type { RecordPlace, RoomProblem } from "./room-problem";
import { sortKeys } from "./sort-keys";

type Verdict = Result<RecordChange, RoomProblem>;

/**
 * Whether a member may make this change, and whether what it leaves behind is a record of the room.
 *
 * A record is created in its writer's own name and changed by its author alone; what it is about stays. A version
 * of a pencilled cut is not changed at all.
 * Whether a comment is resolved is said by any player or coach, in their own name. Nothing is erased.
 *
 * @param member the person as the session tells, never as the change tells.
 * @param now the time to hold the record's own times against.
 */
export function checkChange(change: RecordChange, member: RoomMember, now = new Date()): Verdict {
  const place = { map: change.map, key: change.key };
  if (!canComment(member.role)) return failure({ kind: "reads-only" });
  // Two may resolve the same comment at the same time; whose word Yjs sets aside did nothing wrong.
  if (change.map === "resolutions" && change.isOvertaken) return success(change);
  if (change.after === undefined) return failure({ kind: "record-removed", place });
  const read = readRecord(change.map, change.key, change.after);
  if (!read.ok) return read;
  const problem = findProblem(change, read.value, member, now);
  return problem === null ? success(change) : failure(problem);
}

/** Reads one value of a map as the record it must be. */
export function readRecord<Name extends RoomMapName>(
  map: Name,
  key: string,
  value: unknown,
): Result<RoomRecords[Name], RoomProblem> {
  const place = { map, key };
  if (!isPlainJson(value)) return failure({ kind: "invalid-record", place, detail: "it is not plain data" });
  const parsed = recordSchemas[map].safeParse(value);
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    const detail = issue ? `${issue.path.join(".") || "record"}: ${issue.message}` : "unknown";
    return failure({ kind: "invalid-record", place, detail });
  }
  const record = parsed.data as RoomRecords[Name];
  if (keyOf(map, record) !== key) {
    return failure({ kind: "invalid-record", place, detail: "it stands under another name" });
  }
  return success(record);
}

function findProblem(
  change: RecordChange,
  after: unknown,
  member: RoomMember,
  now: Date,
): RoomProblem | null {
  const place = { map: change.map, key: change.key };
  switch (change.map) {
    case "comments":
      return checkComment(change.before, after as CommentRecord, member, now, place);
    case "breaths":
      return checkBreath(change.before, after as BreathRecord, member, now, place);
    case "resolutions":
      return checkResolution(after as ResolutionRecord, member, now, place);
    case "pencilledCuts":
      return checkPencilledVersion(change.before, after as PencilledVersionRecord, member, now, place);
    case "cues":
      return checkCue(change.before, after as CueRecord, member, now, place);
  }
}

const fixedInComments = ["authorId", "createdAt", "about", "replyTo"] as const;

function checkComment(
  before: unknown,
  after: CommentRecord,
  member: RoomMember,
  now: Date,
  place: RecordPlace,
): RoomProblem | null {
  const times = [after.createdAt, after.deletedAt, after.editedAt ?? null];
  if (times.some((time) => isAhead(time, now))) return { kind: "clock-ahead", place };
  return checkAuthor(before, after, member, place) ?? checkFixed(before, after, fixedInComments, place);
}

function checkBreath(
  before: unknown,
  after: BreathRecord,
  member: RoomMember,
  now: Date,
  place: RecordPlace,
): RoomProblem | null {
  if (!canMarkBreaths(member.role)) return { kind: "role-may-not", place };
  if (isAhead(after.deletedAt, now)) return { kind: "clock-ahead", place };
  return checkAuthor(before, after, member, place);
}

function checkCue(
  before: unknown,
  after: CueRecord,
  member: RoomMember,
  now: Date,
  place: RecordPlace,
): RoomProblem | null {
  if (!canWriteCues(member.role)) return { kind: "role-may-not", place };
  if (isAhead(after.deletedAt, now)) return { kind: "clock-ahead", place };
  return checkAuthor(before, after, member, place);
}

function checkResolution(
  after: ResolutionRecord,
  member: RoomMember,
  now: Date,
  place: RecordPlace,
): RoomProblem | null {
  if (after.byId !== member.userId) return { kind: "not-in-your-name", place };
  return isAhead(after.at, now) ? { kind: "clock-ahead", place } : null;
}

const fixedInVersions = ["cutId", "createdAt", "from", "to", "over", "isRubbedOut"] as const;

function checkPencilledVersion(
  before: unknown,
  after: PencilledVersionRecord,
  member: RoomMember,
  now: Date,
  place: RecordPlace,
): RoomProblem | null {
  if (!canPencil(member.role)) return { kind: "role-may-not", place };
  if (isAhead(after.createdAt, now)) return { kind: "clock-ahead", place };
  return checkAuthor(before, after, member, place) ?? checkFixed(before, after, fixedInVersions, place);
}

function checkAuthor(
  before: unknown,
  after: { authorId: string },
  member: RoomMember,
  place: RecordPlace,
): RoomProblem | null {
  const author = authorOf(before);
  if (author !== null && author !== member.userId) return { kind: "not-your-record", place };
  return after.authorId === member.userId ? null : { kind: "not-in-your-name", place };
}

function checkFixed<T extends object>(
  before: unknown,
  after: T,
  fields: readonly (keyof T & string)[],
  place: RecordPlace,
): RoomProblem | null {
  if (before === undefined) return null;
  const old = before as Partial<T>;
  const field = fields.find(
    (name) => JSON.stringify(sortKeys(old[name])) !== JSON.stringify(sortKeys(after[name])),
  );
  return field === undefined ? null : { kind: "fixed-field-changed", place, field };
}

function authorOf(value: unknown): string | null {
  return (value as { authorId?: string } | undefined)?.authorId ?? null;
}

function isAhead(time: string | null, now: Date): boolean {
  return time !== null && Date.parse(time) - now.getTime() > maxClockLeadMs;
}
