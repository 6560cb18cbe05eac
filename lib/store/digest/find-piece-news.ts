import type { RoomChange } from "@/lib/room/history/room-change";
import type { MemberRole } from "../who-may";
import { may } from "../who-may";
import { digestTimes } from "./digest-times";
import type { DigestMark } from "./due-digest";
import { findRoomNews, type RoomReader } from "./find-room-news";
import { findTrailNews, type TrailEntry } from "./find-trail-news";
import type { News } from "./news";

/** What is known of how far a person has seen a piece. */
export interface PieceReader extends RoomReader {
  readonly role: MemberRole;
  readonly joinedAt: Date;
  /** When they last left it; null when they never did, or never opened it. */
  readonly visit: DigestMark | null;
  /** Up to where they were told by e-mail. */
  readonly told: DigestMark | null;
  /** When they last wrote in the room, as far as it is not behind the marks; null when they did not. */
  readonly wroteAt: Date | null;
}

/** What happened in a piece: enough of it to reach back behind every mark of the reader. */
export interface PiecePast {
  readonly changes: readonly RoomChange[];
  readonly trail: readonly TrailEntry[];
}

/**
 * What others did in a piece that a person has neither seen nor been told of, in the order in which it happened.
 *
 * Who does something in a piece, or has a comment on their screen, has the piece before them, so the last such moment
 * counts as a visit: a visit proper is noted only when the piece is left. What happened before they joined is no news,
 * and neither is what is very old.
 */
export function findPieceNews({ changes, trail }: PiecePast, reader: PieceReader, now: Date): News[] {
  const { userId, visit, told } = reader;
  const did = trail.filter((entry) => entry.userId === userId).map(({ at }) => at);
  const active = latest([...did, ...reader.seen.values(), reader.wroteAt]);
  const start = new Date(Math.max(reader.joinedAt.getTime(), now.getTime() - digestTimes.oldest));
  const seenRoom = latest([start, active]);
  const seenSequence = Math.max(visit?.sequence ?? 0, told?.sequence ?? 0);
  const seenTrail = latest([start, active, visit?.at, told?.at]);
  const unseen = changes.filter(({ sequence, at }) => sequence > seenSequence && new Date(at) > seenRoom);
  const settled = trail.filter(
    ({ at }) => at > seenTrail && at.getTime() <= now.getTime() - digestTimes.settling,
  );
  const room = may(reader.role, "read-discussion") ? findRoomNews(unseen, reader) : [];
  return [...room, ...findTrailNews(settled, reader)].sort((a, b) => a.at.getTime() - b.at.getTime());
}

/** The latest of some times; the beginning of time when there are none. */
function latest(times: readonly (Date | null | undefined)[]): Date {
  return new Date(Math.max(0, ...times.map((time) => time?.getTime() ?? 0)));
}
