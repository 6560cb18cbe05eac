import { digestTimes } from "./digest-times";
import type { DigestMark } from "./due-digest";
import { findPieceNews } from "./find-piece-news";
import type { Candidate } from "./list-candidates";
import type { News } from "./news";
import { type RoomTailEntry, readPeople, readPiecePast, readRoomTail, readSeen } from "./read-piece-past";

/** What a candidate is to be told of, if anything. */
export interface CandidateNews {
  readonly candidate: Candidate;
  /** In the order in which it happened; may be empty. */
  readonly news: readonly News[];
  /** Whether it stays so for as long as the candidate does. */
  readonly isSettled: boolean;
}

/**
 * The news of one piece for those of its members who may have some. The room is read once for all of them, and only
 * when somebody else has written in it and that could be told by now.
 *
 * @param candidates of one piece, listed at once.
 * @returns without those for whom something was written so lately that nothing is due yet.
 */
export async function workOutNews(
  pieceId: string,
  candidates: readonly Candidate[],
  now: Date,
): Promise<CandidateNews[]> {
  const tail = await readRoomTail(pieceId, Math.min(...candidates.map(startOf)), now);
  const looks = candidates.map((candidate) => ({ candidate, ...lookAtRoom(tail, candidate, now) }));
  const worth = looks.filter(({ others }) => others !== "too-fresh");
  if (worth.length === 0) return [];
  const hasRoom = worth.some(({ others }) => others === "wrote");
  // What is appended meanwhile is for the next round: the marks will not reach so far.
  const upTo = hasRoom ? Math.max(...candidates.map(({ roomSequence }) => roomSequence)) : null;
  const past = await readPiecePast(pieceId, { now, upTo });
  const people = (await readPeople(pieceId)).filter(({ isHere }) => isHere);
  return Promise.all(
    worth.map(async ({ candidate, wroteAt }) => {
      const { userId, role, joinedAt } = candidate;
      const reader = {
        ...{ userId, role, joinedAt, people, wroteAt },
        seen: await readSeen(pieceId, userId),
        visit: toMark(candidate.visitSequence, candidate.visitAt),
        told: toMark(candidate.toldSequence, candidate.toldAt),
      };
      const news = findPieceNews(past, reader, now);
      return { candidate, news, isSettled: isSettled(candidate, now) };
    }),
  );
}

interface RoomLook {
  /** Whether others wrote something that the person may not have seen. */
  readonly others: "wrote nothing" | "wrote" | "too-fresh";
  /** When the person last wrote there. */
  readonly wroteAt: Date | null;
}

/** Who wrote when, without what: for a person alone with a piece there is nothing to be worked out. */
function lookAtRoom(tail: readonly RoomTailEntry[], candidate: Candidate, now: Date): RoomLook {
  const unseen = tail.filter(({ sequence }) => sequence > startOf(candidate));
  const mine = unseen.findLastIndex(({ userId }) => userId === candidate.userId);
  const wroteAt = unseen[mine]?.at ?? null;
  const first = unseen.slice(mine + 1).find(({ userId }) => userId !== null);
  if (!first || candidate.role === "reader") return { others: "wrote nothing", wroteAt };
  const isFresh = first.at.getTime() > now.getTime() - digestTimes.mentionQuiet;
  return { others: isFresh ? "too-fresh" : "wrote", wroteAt };
}

function startOf({ visitSequence, toldSequence }: Candidate): number {
  return Math.max(visitSequence ?? 0, toldSequence ?? 0);
}

/** Whether every entry of the trail up to the last one known has become visible. */
function isSettled({ lastDoneAt }: Candidate, now: Date): boolean {
  return lastDoneAt === null || lastDoneAt.getTime() <= now.getTime() - digestTimes.settling;
}

/** Both halves of a mark, or none. */
export function toMark(sequence: number | null, at: Date | null): DigestMark | null {
  return sequence === null || at === null ? null : { sequence, at };
}
