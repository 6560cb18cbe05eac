import type { Prisma } from "@/generated/prisma/client";
import type { BreathPreferences } from "@/lib/breath/breath-preferences";
import { breathPreferencesSchema } from "@/lib/breath/breath-preferences-schema";
import { partRolesSchema } from "@/lib/edition/edition-content";
import { tempoTermsSchema } from "@/lib/edition/tempo-terms";
import { failure, type Result, success } from "@/lib/score/result";
import { type Database, database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { isPlayer, type MemberRole, may } from "../who-may";
import { initialOf, type MemberRecord, type PieceRecord, type SourceRecord } from "./piece-record";

/** One piece, as a member sees it. */
export async function readPiece(viewer: Viewer, pieceId: string): Promise<Result<PieceRecord, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const row = await database().piece.findUnique({ where: { id: pieceId }, include: pieceParts });
  return row ? success(toPieceRecord(row, membership.value.role)) : failure({ kind: "not-found" });
}

const pieceParts = {
  sources: { orderBy: { createdAt: "desc" } },
  members: {
    orderBy: { joinedAt: "asc" },
    include: { user: { select: { name: true } } },
  },
} as const satisfies Prisma.PieceInclude;

type PieceRow = Prisma.PieceGetPayload<{ include: typeof pieceParts }>;

function toPieceRecord(row: PieceRow, myRole: MemberRole): PieceRecord {
  const { id, title, movement, composer, soloInstrument, limitSeconds, createdAt, changedAt, longTuttiBars } =
    row;
  return {
    ...{ id, title, movement, composer, soloInstrument, limitSeconds, createdAt, changedAt, longTuttiBars },
    occasion: row.branchName,
    source: toSourceRecord(row.sources),
    settings: tempoTermsSchema.parse(row.tempo),
    breath: may(myRole, "read-discussion") ? findBreath(row.members) : null,
    members: toMemberRecords(row.members.filter(({ removedAt }) => removedAt === null)),
    formerMembers: toMemberRecords(row.members.filter(({ removedAt }) => removedAt !== null)),
    myRole,
  };
}

/** Of the soloist who plays now. */
function findBreath(members: PieceRow["members"]): BreathPreferences | null {
  const soloist = members.find(({ role, removedAt }) => role === "soloist" && removedAt === null);
  return soloist?.breath ? breathPreferencesSchema.parse(soloist.breath) : null;
}

function toSourceRecord(rows: PieceRow["sources"]): SourceRecord {
  const row = rows.find((source) => source.kind === "reduction");
  // A piece and its source are created in one transaction.
  if (!row) throw new Error("a piece without a source");
  const { id, hash, fileName, byteLength } = row;
  const hasFullScore = rows.some((source) => source.kind === "full_score");
  return { id, hash, fileName, byteLength, hasFullScore, partRoles: partRolesSchema.parse(row.partRoles) };
}

/** Players first, each in the order of joining. */
export function toMemberRecords(
  rows: readonly { userId: string; role: MemberRole; user: { name: string } }[],
): MemberRecord[] {
  return rows
    .map(({ userId, role, user }) => ({ userId, role, name: user.name, initial: initialOf(user.name) }))
    .sort((a, b) => Number(isPlayer(b.role)) - Number(isPlayer(a.role)));
}

/** Who plays in a piece now. */
export async function readPlayers(
  pieceId: string,
  db: Database = database(),
): Promise<{ userId: string; name: string; role: "pianist" | "soloist" }[]> {
  const rows = await db.member.findMany({
    where: { pieceId, removedAt: null, role: { in: ["pianist", "soloist"] } },
    orderBy: { role: "asc" },
    select: { userId: true, role: true, user: { select: { name: true } } },
  });
  return rows.flatMap(({ userId, role, user }) =>
    isPlayer(role) ? [{ userId, role, name: user.name }] : [],
  );
}
