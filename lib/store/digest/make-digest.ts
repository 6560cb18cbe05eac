import { hashText } from "@/lib/edition/hash-terms";
import { database } from "../database";
import { findMainSource, readSourceScore } from "../pieces/score-of-source";
import { digestTimes } from "./digest-times";
import type { DigestPiece, DueDigest } from "./due-digest";
import { readPeople } from "./read-piece-past";
import { type CandidateNews, toMark } from "./work-out-news";

/**
 * One message about all that a person is to be told.
 *
 * @param found of one person, not empty, each with news.
 */
export async function makeDigest(found: readonly CandidateNews[], now: Date): Promise<DueDigest> {
  const [first] = found;
  if (!first) throw new RangeError("a message about nothing");
  const { userId, name, email } = first.candidate;
  const pieces: DigestPiece[] = [];
  for (const one of found) pieces.push(await describe(one, now));
  return { userId, name, email, pieces, key: keyOf(userId, pieces) };
}

async function describe({ candidate, news }: CandidateNews, now: Date): Promise<DigestPiece> {
  const { pieceId, title, roomSequence, toldSequence, toldAt } = candidate;
  const people = await readPeople(pieceId);
  const speaksOfBars = news.some((one) => "span" in one && one.span !== null);
  return {
    ...{ pieceId, title, news },
    people: new Map(people.map((person) => [person.userId, person.name])),
    barLabels: speaksOfBars ? await readBarLabels(pieceId) : [],
    before: toMark(toldSequence, toldAt),
    // Entries of the trail that are still on their way carry earlier times than now.
    after: { sequence: roomSequence, at: new Date(now.getTime() - digestTimes.settling) },
  };
}

async function readBarLabels(pieceId: string): Promise<string[]> {
  if ((await database().source.count({ where: { pieceId, kind: "reduction" } })) === 0) return [];
  const source = await findMainSource(pieceId);
  const { score } = await readSourceScore(source, source.partRoles);
  return score.bars.map(({ label }) => label);
}

/** Not from the new marks, whose time is the round's, but from what there is to tell. */
function keyOf(userId: string, pieces: readonly DigestPiece[]): string {
  const told = pieces.map(({ pieceId, before, after, news }) => [
    pieceId,
    before?.at.toISOString() ?? null,
    after.sequence,
    news.filter(({ kind }) => kind === "trail").map(({ at }) => at.toISOString()),
  ]);
  return hashText(JSON.stringify([userId, ...told]));
}
