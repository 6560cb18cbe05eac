import type { HistoryDesk } from "@/app/_data/desk/read-history";
import type { RecordPastOf } from "@/app/_data/desk/read-record-past";
import { capital } from "@/app/_ui/capital";
import { namePlace, nameSpan } from "@/app/_ui/name-span";
import type { CommentRecord } from "@/lib/room/comment-record";
import { findHeads } from "@/lib/room/find-heads";
import type { RoomRecordsAt } from "@/lib/room/history/room-records-at";
import { groupVersions } from "@/lib/room/pencilled-versions";

/** One thing that stood in the room. */
export interface FormerItem {
  readonly of: RecordPastOf;
  readonly userId: string;
  readonly at: string | null;
  /** "bars 12–14", "cut 2". */
  readonly place: string;
  readonly text: string | null;
  /** "resolved", "edited"; null when there is nothing to say. */
  readonly remark: string | null;
  readonly isReply: boolean;
}

/** What stood in a room, in the order of the page. What was deleted or rubbed out then is left out. */
export function listFormer(
  records: RoomRecordsAt,
  desk: Pick<HistoryDesk, "bars" | "cuts">,
): Record<"comments" | "breaths" | "cues" | "pencilled", FormerItem[]> {
  return {
    comments: formerComments(records, desk),
    breaths: formerBreaths(records, desk),
    cues: formerCues(records, desk),
    pencilled: formerPencils(records, desk),
  };
}

type Names = Pick<HistoryDesk, "bars" | "cuts">;

function formerComments({ comments, resolutions }: RoomRecordsAt, names: Names): FormerItem[] {
  const resolved = new Set(
    resolutions.flatMap(({ commentId, isResolved }) => (isResolved ? [commentId] : [])),
  );
  const byId = new Map(comments.map((record) => [record.id, record]));
  /** An answer stands under what it answers. */
  const order = (record: CommentRecord) => {
    const first = record.replyTo === null ? record : (byId.get(record.replyTo) ?? record);
    const bar = first.about.kind === "span" ? first.about.from.barIndex : Number.MAX_SAFE_INTEGER;
    return { bar, thread: `${first.createdAt} ${first.id}`, at: record.createdAt };
  };
  return comments
    .filter(({ deletedAt }) => deletedAt === null)
    .map((record) => ({ record, place: order(record) }))
    .sort(
      (a, b) =>
        a.place.bar - b.place.bar ||
        compareText(a.place.thread, b.place.thread) ||
        compareText(a.place.at, b.place.at),
    )
    .map(({ record }) => ({
      of: { map: "comments", key: record.id },
      userId: record.authorId,
      at: record.createdAt,
      place: nameSubject(record, names),
      text: record.text,
      remark: resolved.has(record.id) ? "resolved" : null,
      isReply: record.replyTo !== null,
    }));
}

function nameSubject({ about }: CommentRecord, { bars, cuts }: Names): string {
  if (about.kind === "span") return capital(nameSpan(bars, about.from, about.to));
  const number = cuts.find(({ id }) => id === about.proposalId)?.number;
  return number === undefined ? "A cut" : `Cut ${number}`;
}

function formerBreaths({ breaths }: RoomRecordsAt, { bars }: Names): FormerItem[] {
  return breaths
    .filter(({ deletedAt }) => deletedAt === null)
    .toSorted((a, b) => a.at.barIndex - b.at.barIndex)
    .map(({ id, authorId, at }) => ({
      ...{ of: { map: "breaths", key: id }, userId: authorId, at: null, text: null, remark: null },
      place: capital(namePlace(bars, at)),
      isReply: false,
    }));
}

function formerCues({ cues }: RoomRecordsAt, { bars }: Names): FormerItem[] {
  return cues
    .filter(({ deletedAt }) => deletedAt === null)
    .toSorted((a, b) => a.at.barIndex - b.at.barIndex)
    .map(({ id, authorId, at, text }) => ({
      ...{ of: { map: "cues", key: id }, userId: authorId, at: null, text, remark: null },
      place: capital(namePlace(bars, at)),
      isReply: false,
    }));
}

function formerPencils({ pencilledCuts }: RoomRecordsAt, { bars }: Names): FormerItem[] {
  return [...groupVersions(pencilledCuts).values()].flatMap((versions) => {
    const standing = findHeads(versions).filter(({ isRubbedOut }) => !isRubbedOut);
    return standing.map(
      ({ cutId, authorId, createdAt, from, to }): FormerItem => ({
        ...{ of: { map: "pencilledCuts", key: cutId }, userId: authorId, at: createdAt },
        ...{ place: capital(nameSpan(bars, from, to)), text: null, isReply: false },
        remark: standing.length > 1 ? "not settled" : null,
      }),
    );
  });
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
