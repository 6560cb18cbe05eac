import type { Prisma } from "@/generated/prisma/client";
import type { ArchivedPerson } from "@/lib/archive/piece-schemas";
import { breathPreferencesSchema } from "@/lib/breath/breath-preferences-schema";
import { archivedAsSchema } from "./archive-keys";

/** Every row of a piece that goes into an archive, in the order in which the archive has them. */
const wholePiece = {
  members: { orderBy: { id: "asc" }, include: { user: { select: { name: true } } } },
  sources: { orderBy: [{ createdAt: "asc" }, { id: "asc" }], include: { bytes: true } },
  pageBreaks: { orderBy: [{ createdAt: "asc" }, { id: "asc" }] },
  proposals: {
    orderBy: [{ createdAt: "asc" }, { id: "asc" }],
    include: { answers: { orderBy: [{ at: "asc" }, { id: "asc" }] } },
  },
  // What somebody keeps to themselves is not even read.
  rewrites: {
    where: { sharing: { not: "only_me" } },
    orderBy: [{ createdAt: "asc" }, { id: "asc" }],
    include: {
      events: { where: { sharing: { not: "only_me" } }, orderBy: [{ at: "asc" }, { id: "asc" }] },
      editions: {
        select: { edition: { select: { number: true } } },
        orderBy: { edition: { number: "asc" } },
      },
    },
  },
  cueHints: { orderBy: [{ at: "asc" }, { id: "asc" }] },
  approvals: { orderBy: [{ at: "asc" }, { id: "asc" }] },
  restNeeds: {
    orderBy: [{ createdAt: "asc" }, { id: "asc" }],
    include: { events: { orderBy: [{ at: "asc" }, { id: "asc" }] } },
  },
  editions: { orderBy: { number: "asc" }, include: { approvals: true, proposals: true } },
  performances: {
    orderBy: [{ createdAt: "asc" }, { id: "asc" }],
    include: { edition: { select: { number: true } } },
  },
  auditEntries: { orderBy: [{ at: "asc" }, { id: "asc" }] },
  roomUpdates: { orderBy: { sequence: "asc" } },
} as const satisfies Prisma.PieceInclude;

export type WholePiece = Prisma.PieceGetPayload<{ include: typeof wholePiece }>;

/** Null when there is no such piece. To be read in a transaction of its own, so that the rows belong together. */
export function readWholePiece(tx: Prisma.TransactionClient, pieceId: string): Promise<WholePiece | null> {
  return tx.piece.findUnique({ where: { id: pieceId }, include: wholePiece });
}

/** A member as an archive names them. */
export interface NamedMember {
  readonly userId: string;
  readonly person: ArchivedPerson;
}

/**
 * Who belongs or belonged to a piece, by keys: those of the archive that the piece came in from, then the next numbers in
 * the order in which people came.
 */
export function nameMembers(members: WholePiece["members"]): NamedMember[] {
  const named = members.map((member) => ({
    member,
    as: member.archivedAs === null ? null : archivedAsSchema.parse(member.archivedAs),
  }));
  let last = Math.max(0, ...named.map(({ as }) => (as ? numberOf(as.key) : 0)));
  const people = named.map(({ member, as }): NamedMember => {
    const leftAt = as && !as.isClaimed ? as.leftAt : (member.removedAt?.toISOString() ?? null);
    if (!as) last += 1;
    return {
      userId: member.userId,
      person: {
        key: as?.key ?? `p${last}`,
        name: as?.name ?? member.user.name,
        role: member.role,
        joinedAt: member.joinedAt.toISOString(),
        leftAt,
        breath: member.breath === null ? null : breathPreferencesSchema.parse(member.breath),
      },
    };
  });
  return people.sort((a, b) => numberOf(a.person.key) - numberOf(b.person.key));
}

const numberOf = (key: string) => Number(key.slice(1));
