import type { AccountArchive, WrittenInPiece } from "@/lib/archive/account-archive";
import type { PieceArchive } from "@/lib/archive/piece-archive";
import type { ArchivedRoom } from "@/lib/archive/room-schema";
import { writeAccountArchive } from "@/lib/archive/write-account-archive";
import { isoDateOf } from "@/lib/calendar/iso-date";
import { handsProfileSchema } from "@/lib/hands/hands-profile";
import { roomMapNames } from "@/lib/room/room-keys";
import { failure, type Result, success } from "@/lib/score/result";
import { nameMembers, readWholePiece, type WholePiece } from "../archive/read-whole-piece";
import { toPieceArchive } from "../archive/to-piece-archive";
import { takeTry } from "../auth/rate-limit";
import { database } from "../database";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { readOwnInPiece } from "./read-own-in-piece";

/**
 * Everything of the viewer's account to take along: who they are here, the pieces they belong or belonged to, and
 * everything they wrote. What others wrote is not in it.
 */
export async function exportAccount(viewer: Viewer): Promise<Result<Uint8Array<ArrayBuffer>, StoreProblem>> {
  const limit = await takeTry("takeAwayByPerson", viewer.userId);
  if (!limit.ok) return limit;
  const user = await database().user.findUnique({
    where: { id: viewer.userId },
    include: { memberships: { orderBy: { id: "asc" }, select: { pieceId: true } } },
  });
  if (!user) return failure({ kind: "not-found" });
  const pieces = new Map<string, Omit<WrittenInPiece, "schema">>();
  const memberships: AccountArchive["account"]["memberships"] = [];
  // One after the other: a piece is read with all its rows.
  for (const { pieceId } of user.memberships) {
    const file = `pieces/${pieces.size + 1}.json`;
    const written = await readWritten(viewer, pieceId);
    if (!written) continue;
    pieces.set(file, written.piece);
    memberships.push({ file, ...written.membership });
  }
  const { name, email, createdAt, wantsDigest } = user;
  const hands = user.hands === null ? null : handsProfileSchema.parse(user.hands);
  const account = { name, email, createdAt: createdAt.toISOString(), wantsDigest, hands, memberships };
  return success(writeAccountArchive({ account, pieces, programmes: await readProgrammes(viewer) }));
}

async function readWritten({ userId }: Viewer, pieceId: string) {
  const row = await database().$transaction((tx) => readWholePiece(tx, pieceId), {
    isolationLevel: "RepeatableRead",
  });
  const person = row && nameMembers(row.members).find((member) => member.userId === userId)?.person;
  if (!person) return null;
  // The editions are the duo's and not written by one: without them no music is written either.
  const archive = await toPieceArchive({ ...row, editions: [] });
  const { title, composer } = row;
  const { role, joinedAt, leftAt, key } = person;
  return {
    membership: { title, composer, role, joinedAt, leftAt },
    piece: {
      ...{ title, me: key, editionsApproved: listApproved(row, userId), ...keepOwn(archive, key) },
      ...(await readOwnInPiece(userId, pieceId)),
    },
  };
}

function listApproved({ editions }: WholePiece, userId: string): WrittenInPiece["editionsApproved"] {
  return editions.flatMap(({ number, hash, approvals }) =>
    approvals
      .filter((approval) => approval.userId === userId)
      .map(({ name, at }) => ({ number, hash, name, at: at.toISOString() })),
  );
}

function keepOwn(
  { proposals, rewriteProposals, hints, approvals, needs, performances, room, trail }: PieceArchive,
  me: string,
): Omit<WrittenInPiece, "schema" | "title" | "me" | "editionsApproved" | "rewrites" | "practice"> {
  const answered = [...proposals, ...rewriteProposals];
  return {
    proposals: proposals
      .filter(({ proposedBy }) => proposedBy === me)
      .map(({ answers: _answers, ...proposal }) => proposal),
    rewriteProposals: rewriteProposals
      .filter(({ proposedBy }) => proposedBy === me)
      .map(({ answers: _answers, ...proposal }) => proposal),
    hints: hints.filter(({ by }) => by === me),
    answers: answered.flatMap(({ number, terms, answers }) =>
      answers.flatMap(({ by, ...answer }) => (by === me ? [{ number, terms, answer }] : [])),
    ),
    approvals: approvals.filter(({ by }) => by === me),
    needs: needs.filter(({ notedBy, events }) => notedBy === me || events.some(({ by }) => by === me)),
    performances: performances.filter(({ loggedBy }) => loggedBy === me),
    room: keepOwnRecords(room, me),
    trail: trail.filter(({ by }) => by === me),
  };
}

function keepOwnRecords(room: ArchivedRoom, me: string): ArchivedRoom {
  const isMine = (record: object) =>
    ("authorId" in record && record.authorId === me) || ("byId" in record && record.byId === me);
  const maps: [string, readonly { readonly record: object }[]][] = roomMapNames.map((map) => [
    map,
    room[map],
  ]);
  // Map and record stay together, which a list of both cannot tell.
  return Object.fromEntries(
    maps.map(([map, records]) => [map, records.filter(({ record }) => isMine(record))]),
  ) as unknown as ArchivedRoom;
}

async function readProgrammes({ userId }: Viewer): Promise<AccountArchive["programmes"]> {
  const rows = await database().programme.findMany({
    where: { ownerId: userId },
    orderBy: [{ createdAt: "asc" }, { id: "asc" }],
    include: {
      items: {
        orderBy: { place: "asc" },
        include: { performance: { include: { piece: { select: { title: true } } } } },
      },
    },
  });
  return rows.map(({ name, on, startsAt, place, limitSeconds, remarks, createdAt, removedAt, items }) => ({
    ...{ name, on: isoDateOf(on), startsAt, place, limitSeconds, remarks },
    ...{ createdAt: createdAt.toISOString(), removedAt: removedAt?.toISOString() ?? null },
    items: items.map(({ title, performance, plannedSeconds, realSeconds, gapSeconds }) => ({
      title: title ?? performance?.piece.title ?? "",
      plannedSeconds: plannedSeconds ?? performance?.plannedSeconds ?? null,
      realSeconds: realSeconds ?? performance?.realSeconds ?? null,
      gapSeconds,
    })),
  }));
}
