import { uuidv4 } from "lib0/random";
import type * as Y from "yjs";
import type { BreathRecord } from "../breath-record";
import type { CommentRecord } from "../comment-record";
import type { CueRecord } from "../cue-record";
import { findHeads } from "../find-heads";
import { groupVersions, termsOf } from "../pencilled-versions";
import type { RoomMapName, RoomRecords } from "../room-keys";
import { canComment, canMarkBreaths, canPencil, canWriteCues, type RoomMember } from "../room-member";
import type { RoomWrite } from "../room-write";
import { isSameJson } from "../sort-keys";
import { overAll, type Writing } from "../write-over";
import { listRecords, type RoomRecordsAt } from "./room-records-at";

/** Something that differs from what it was, and that only its author can change. */
export interface LeftToOther {
  readonly map: RoomMapName;
  readonly key: string;
  readonly userId: string;
}

export interface Restoration {
  /** To be written in order, in one transaction. Each passes the room's check for this member. */
  readonly writes: readonly RoomWrite[];
  readonly leftToOthers: readonly LeftToOther[];
}

/** The two states to go between, and who goes. */
interface Way {
  readonly now: RoomRecordsAt;
  readonly then: RoomRecordsAt;
  readonly member: RoomMember;
  readonly writing: Writing;
}

/**
 * What a member may write to make the room as it once was: the text and deletion of their own comments, their own
 * breaths and cues, every pencilled cut as a new version over what stands, and what is resolved, in their own name. What was
 * written since is deleted or rubbed out, never erased. All else is left to its authors.
 *
 * @param now the room as it stands; it is only read.
 * @param then as `roomRecordsAt` gives it.
 * @param at the time of the restoration.
 * @returns no writes for someone who writes nothing in the room, or where nothing differs.
 */
export function findRestoration(
  now: Y.Doc,
  then: RoomRecordsAt,
  member: RoomMember,
  at: Date,
  newId: () => string = uuidv4,
): Restoration {
  if (!canComment(member.role)) return { writes: [], leftToOthers: [] };
  const writing = { authorId: member.userId, at: at.toISOString(), newId };
  const way = { now: listRecords(now), then, member, writing };
  const parts = [
    ...[restoreComments(way), restoreBreaths(way), restoreCues(way)],
    ...[restoreCuts(way), restoreResolutions(way)],
  ];
  return {
    writes: parts.flatMap(({ writes }) => writes),
    leftToOthers: parts.flatMap(({ leftToOthers }) => leftToOthers),
  };
}

function restoreComments(way: Way): Restoration {
  const { at } = way.writing;
  return restoreOwn(way, "comments", true, (record, former): CommentRecord => {
    if (former === undefined) return { ...record, deletedAt: record.deletedAt ?? at };
    const { text, deletedAt, print } = former;
    return { ...record, text, deletedAt, print, ...(text === record.text ? {} : { editedAt: at }) };
  });
}

function restoreBreaths(way: Way): Restoration {
  const { at } = way.writing;
  const mayWrite = canMarkBreaths(way.member.role);
  return restoreOwn(
    way,
    "breaths",
    mayWrite,
    (record, former): BreathRecord => former ?? { ...record, deletedAt: record.deletedAt ?? at },
  );
}

function restoreCues(way: Way): Restoration {
  const { at } = way.writing;
  const mayWrite = canWriteCues(way.member.role);
  return restoreOwn(
    way,
    "cues",
    mayWrite,
    (record, former): CueRecord => former ?? { ...record, deletedAt: record.deletedAt ?? at },
  );
}

/** @param mend the record as it must become, from what stands and what stood. */
function restoreOwn<Name extends "comments" | "breaths" | "cues">(
  { now, then, member }: Way,
  map: Name,
  mayWrite: boolean,
  mend: (record: RoomRecords[Name], former: RoomRecords[Name] | undefined) => RoomRecords[Name],
): Restoration {
  const [writes, leftToOthers]: [RoomWrite[], LeftToOther[]] = [[], []];
  const standing = new Map(now[map].map((record) => [record.id, record]));
  const former = new Map(then[map].map((record) => [record.id, record]));
  for (const key of new Set([...standing.keys(), ...former.keys()])) {
    const [stands, stood] = [standing.get(key), former.get(key)];
    // A room that began anew may lack what stood: it is written again.
    const base = stands ?? stood;
    if (base === undefined) continue;
    const record = mend(base, stood);
    if (isSameJson(record, stands)) continue;
    if (mayWrite && base.authorId === member.userId) writes.push({ map, key, record } as RoomWrite);
    else leftToOthers.push({ map, key, userId: base.authorId });
  }
  return { writes, leftToOthers };
}

function restoreCuts({ now, then, member, writing }: Way): Restoration {
  const [writes, leftToOthers]: [RoomWrite[], LeftToOther[]] = [[], []];
  const [standing, former] = [groupVersions(now.pencilledCuts), groupVersions(then.pencilledCuts)];
  for (const cutId of new Set([...standing.keys(), ...former.keys()])) {
    const heads = findHeads(standing.get(cutId) ?? []);
    const stood = findHeads(former.get(cutId) ?? []);
    const [first] = heads;
    const rubbedOut = first ? [{ ...first, isRubbedOut: true }] : [];
    const wanted = stood.length > 0 ? stood : rubbedOut;
    if (saysTheSame(heads, wanted)) continue;
    const terms = new Map(wanted.map((version) => [termsOf(version), version])).values();
    const over = heads.map(({ id }) => id);
    const records = [...terms].flatMap((version) => overAll(over, cutId, version, writing));
    if (canPencil(member.role))
      writes.push(...records.map((record) => ({ map: "pencilledCuts" as const, key: record.id, record })));
    else if (first) leftToOthers.push({ map: "pencilledCuts", key: first.id, userId: first.authorId });
  }
  return { writes, leftToOthers };
}

type Heads = ReturnType<typeof findHeads>;

/** Whether two sets of versions show the same. What is rubbed out shows nothing. */
function saysTheSame(a: Heads, b: Heads): boolean {
  const shown = (heads: Heads) =>
    heads.every(({ isRubbedOut }) => isRubbedOut) ? [] : [...new Set(heads.map(termsOf))].sort();
  return isSameJson(shown(a), shown(b));
}

function restoreResolutions({ now, then, writing }: Way): Restoration {
  const resolved = ({ resolutions }: RoomRecordsAt) =>
    new Map(resolutions.map(({ commentId, isResolved }) => [commentId, isResolved]));
  const [standing, former] = [resolved(now), resolved(then)];
  const writes: RoomWrite[] = [];
  for (const key of new Set([...standing.keys(), ...former.keys()])) {
    const isResolved = former.get(key) ?? false;
    if ((standing.get(key) ?? false) === isResolved) continue;
    const record = { commentId: key, byId: writing.authorId, at: writing.at, isResolved };
    writes.push({ map: "resolutions", key, record });
  }
  return { writes, leftToOthers: [] };
}
