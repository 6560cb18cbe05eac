import type { CommentRecord } from "@/lib/room/comment-record";
import { findMentions, type Mentionable } from "@/lib/room/find-mentions";
import type { RoomChange } from "@/lib/room/history/room-change";
import type { PencilledVersionRecord } from "@/lib/room/pencilled-version-record";
import { toPosition } from "@/lib/room/position-record";
import type { CommentNews, News, PencilNews } from "./news";

/** For whom the changes of a room are looked through. */
export interface RoomReader {
  readonly userId: string;
  /** Comment id → when it was on the person's screen. */
  readonly seen: ReadonlyMap<string, Date>;
  /** Who can be named in a comment, the person among them. */
  readonly people: readonly Mentionable[];
}

/**
 * What others wrote in a room, one piece of news a record, however often it was changed meanwhile: a comment stands
 * there as it reads now, and one that was deleted again is none.
 *
 * @param changes those the person has not seen, in the order of the log.
 */
export function findRoomNews(changes: readonly RoomChange[], reader: RoomReader): News[] {
  const byOthers = changes.filter(
    ({ userId, isOvertaken }) => userId !== null && userId !== reader.userId && !isOvertaken,
  );
  return [...groupByThing(byOthers).values()].flatMap((group) => {
    const news = group[0]?.map === "comments" ? toCommentNews(group, reader) : toPencilNews(group);
    return news === null ? [] : [news];
  });
}

function groupByThing(changes: readonly RoomChange[]): Map<string, RoomChange[]> {
  const groups = new Map<string, RoomChange[]>();
  for (const change of changes) {
    const thing = `${change.map} ${nameThing(change)}`;
    groups.set(thing, [...(groups.get(thing) ?? []), change]);
  }
  return groups;
}

/** All versions of a pencilled cut are one thing. */
function nameThing({ map, key, after }: RoomChange): string {
  return map === "pencilledCuts" ? ((after as PencilledVersionRecord | undefined)?.cutId ?? key) : key;
}

function toCommentNews(group: readonly RoomChange[], reader: RoomReader): CommentNews | null {
  const [first, last] = [group[0], group.at(-1)];
  if (!first || !last?.userId) return null;
  const before = (first.before ?? null) as CommentRecord | null;
  const after = (last.after ?? null) as CommentRecord | null;
  if (after === null || after.deletedAt !== null || wasSeen(last, reader)) return null;
  const wasThere = before !== null && before.deletedAt === null;
  if (wasThere && before.text === after.text) return null;
  const names = (text: string) => findMentions(text, reader.people).includes(reader.userId);
  const { about } = after;
  return {
    kind: wasThere ? "reworded" : after.replyTo === null ? "comment" : "reply",
    at: new Date(last.at),
    byId: last.userId,
    text: after.text,
    span: about.kind === "span" ? { from: toPosition(about.from), to: toPosition(about.to) } : null,
    namesMe: names(after.text) && !(wasThere && names(before.text)),
  };
}

function wasSeen({ key, at }: RoomChange, { seen }: RoomReader): boolean {
  const on = seen.get(key);
  return on !== undefined && on.getTime() >= Date.parse(at);
}

const pencilKinds = {
  resolutions: "resolution",
  breaths: "breath",
  pencilledCuts: "pencilled-cut",
  cues: "cue",
} as const;

function toPencilNews(group: readonly RoomChange[]): PencilNews | null {
  const last = group.at(-1);
  if (!last?.userId || last.map === "comments") return null;
  return { kind: pencilKinds[last.map], at: new Date(last.at), byId: last.userId };
}
