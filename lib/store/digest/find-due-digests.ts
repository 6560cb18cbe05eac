import { digestTimes } from "./digest-times";
import type { DueDigest } from "./due-digest";
import { findDueTime } from "./find-due-time";
import { type Candidate, listCandidates } from "./list-candidates";
import { makeDigest } from "./make-digest";
import { type News, namesMe } from "./news";
import { type CandidateNews, workOutNews } from "./work-out-news";

/**
 * News that an earlier round worked out and that were not due yet. Handed from round to round, so that what waits for
 * its time is not worked out again every minute; what does not wait any more is not kept.
 */
export type WaitingNews = Map<string, { readonly asOf: string; readonly news: readonly News[] }>;

/**
 * Every message that is due: for each person what others did in their pieces since they were last there or last told,
 * once it is time for one of the pieces (`findDueTime`); the news of their others come along,
 * unless somebody has just begun to write there.
 *
 * @param waiting kept by the caller between rounds and changed here.
 * @param onFailure told of a piece or person for whom it could not be worked out; the others get theirs.
 */
export async function findDueDigests(
  now: Date,
  { waiting = new Map(), onFailure }: DigestSearch,
): Promise<DueDigest[]> {
  const candidates = (await listCandidates(now)).filter((candidate) => mayBeDue(candidate, now));
  const known = takeKnown(candidates, waiting);
  const knownOnes = new Set(known.map(({ candidate }) => candidate));
  const unknown = candidates.filter((candidate) => !knownOnes.has(candidate));
  const found = [...known];
  for (const [pieceId, some] of groupBy(unknown, (candidate) => candidate.pieceId)) {
    const news = await workOutNews(pieceId, some, now).catch(passOver(onFailure, { pieceId }));
    if (news) found.push(...news);
  }
  keepWaiting(found, waiting);
  const due: DueDigest[] = [];
  for (const [userId, ofPerson] of groupBy(found, ({ candidate }) => candidate.userId)) {
    const telling = ofPerson.filter(({ news }) => news.length > 0);
    if (!telling.some((one) => isDue(one, now))) continue;
    const digest = await makeDigest(telling, now).catch(passOver(onFailure, { userId }));
    if (digest) due.push(digest);
  }
  return due;
}

export interface DigestSearch {
  readonly waiting?: WaitingNews;
  readonly onFailure: (error: unknown, about: { pieceId?: string; userId?: string }) => void;
}

function passOver(onFailure: DigestSearch["onFailure"], about: { pieceId?: string; userId?: string }) {
  return (error: unknown): null => {
    onFailure(error, about);
    return null;
  };
}

/** Within the shortest pause after a message nothing is due, so nothing needs to be looked at. */
function mayBeDue({ lastMessageAt }: Candidate, now: Date): boolean {
  return lastMessageAt === null || now.getTime() >= lastMessageAt.getTime() + digestTimes.mentionPause;
}

function isDue({ candidate, news }: CandidateNews, now: Date): boolean {
  const timed = news.map((one) => ({ at: one.at, namesMe: namesMe(one) }));
  return findDueTime(timed, candidate.lastMessageAt) <= now;
}

const nameOf = ({ pieceId, userId }: Candidate) => `${pieceId} ${userId}`;

/** A candidate is all that news depend on besides names, so the same candidate has the same news. */
const asOf = (candidate: Candidate) => JSON.stringify(candidate);

function takeKnown(candidates: readonly Candidate[], waiting: WaitingNews): CandidateNews[] {
  return candidates.flatMap((candidate) => {
    const kept = waiting.get(nameOf(candidate));
    return kept?.asOf === asOf(candidate) ? [{ candidate, news: kept.news, isSettled: true }] : [];
  });
}

function keepWaiting(found: readonly CandidateNews[], waiting: WaitingNews): void {
  waiting.clear();
  for (const { candidate, news, isSettled } of found)
    if (isSettled) waiting.set(nameOf(candidate), { asOf: asOf(candidate), news });
}

function groupBy<T>(all: readonly T[], keyOf: (one: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const one of all) {
    const group = groups.get(keyOf(one));
    if (group) group.push(one);
    else groups.set(keyOf(one), [one]);
  }
  return groups;
}
