import { replayRoomInTurns } from "@/lib/room/history/replay-room";
import type { RoomChange } from "@/lib/room/history/room-change";
import { type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { readRoomHeads } from "./read-room-heads";
import { readRoomHistoryLog } from "./read-room-history-log";

/** Something that was done to a piece outside its room: an entry of the trail. */
export interface DoneSinceVisit {
  /** ISO 8601, UTC. */
  readonly at: string;
  readonly userId: string | null;
  /** In the past tense: "cut agreed". */
  readonly what: string;
  /** What it was done to; its shape depends on `what`. */
  readonly about: unknown;
}

/** What others did while somebody was away, each list in the order in which it happened. */
export interface SinceLastVisit {
  /** When the person left, ISO 8601, UTC. */
  readonly lastVisit: string;
  readonly room: RoomChange[];
  readonly done: DoneSinceVisit[];
}

/** Most entries of the trail that are told: the latest ones. */
const mostDone = 200;

/**
 * What others did in a piece since the viewer last left it, for those who read the discussion.
 *
 * @returns null on a first visit.
 */
export async function readSinceLastVisit(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<SinceLastVisit | null, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId, "read-discussion");
  if (!membership.ok) return membership;
  const { userId } = viewer;
  const visit = await database().roomVisit.findUnique({
    where: { pieceId_userId: { pieceId, userId } },
    select: { sequence: true, at: true },
  });
  if (!visit) return success(null);
  const [room, done] = await Promise.all([
    findRoomChanges(viewer, pieceId, visit.sequence),
    findDone(viewer, pieceId, visit.at),
  ]);
  return success({ lastVisit: visit.at.toISOString(), room, done });
}

/** The log is read only when it went on; it is replayed whole, as an entry tells only what it adds. */
async function findRoomChanges(viewer: Viewer, pieceId: string, after: number): Promise<RoomChange[]> {
  const [head] = await readRoomHeads([pieceId]);
  if (!head || head.sequence <= after) return [];
  const changes = await replayRoomInTurns(await readRoomHistoryLog(pieceId));
  return changes.filter(({ sequence, userId }) => sequence > after && userId !== viewer.userId);
}

async function findDone({ userId }: Viewer, pieceId: string, after: Date): Promise<DoneSinceVisit[]> {
  const rows = await database().auditEntry.findMany({
    where: { pieceId, at: { gt: after }, OR: [{ userId: null }, { userId: { not: userId } }] },
    orderBy: [{ at: "desc" }, { id: "desc" }],
    take: mostDone,
    select: { at: true, userId: true, what: true, about: true },
  });
  return rows.reverse().map(({ at, ...done }) => ({ ...done, at: at.toISOString() }));
}
