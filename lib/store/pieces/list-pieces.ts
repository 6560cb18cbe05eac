import type { Prisma } from "@/generated/prisma/client";
import { database } from "../database";
import { readWorkingPiece } from "../editions/working-edition";
import { isOwnProposal } from "../proposals/is-own-proposal";
import { countNewComments } from "../room/count-new-comments";
import type { Viewer } from "../viewer";
import { isPlayer, type MemberRole } from "../who-may";
import type { MemberRecord } from "./piece-record";
import { toMemberRecords } from "./read-piece";

/** A piece as the list of one's pieces shows it. */
export interface PieceSummary {
  readonly id: string;
  readonly title: string;
  readonly movement: string | null;
  readonly composer: string | null;
  readonly soloInstrument: string | null;
  /** What it is prepared for, beside others of the same music; null while nobody has named it. */
  readonly occasion: string | null;
  /** The same for all pieces of one music, so that they stand together; means nothing else. */
  readonly music: string;
  readonly limitSeconds: number | null;
  readonly changedAt: Date;
  readonly myRole: MemberRole;
  readonly members: readonly MemberRecord[];
  /** How many answers of the viewer's are asked for: proposals, and an edition the other player wants to freeze. */
  readonly waitsForMe: number;
  /** How many proposals of the viewer's, and of who had the viewer's place before, wait for the other player. */
  readonly waitsForOther: number;
  /** How many comments others wrote since the viewer last left it, and that the viewer has not seen. */
  readonly newComments: number;
  /** Number of the last edition; null when none was frozen. */
  readonly lastEdition: number | null;
}

/** Every piece the viewer belongs to, the one changed last first. */
export async function listPieces(viewer: Viewer): Promise<PieceSummary[]> {
  const [rows, newComments] = await Promise.all([
    database().piece.findMany({
      where: { deletedAt: null, members: { some: { userId: viewer.userId, removedAt: null } } },
      orderBy: { changedAt: "desc" },
      include: summaryParts,
    }),
    countNewComments(viewer),
  ]);
  return Promise.all(rows.map((row) => toSummary(row, viewer, newComments.get(row.id) ?? 0)));
}

const summaryParts = {
  members: {
    orderBy: { joinedAt: "asc" },
    include: { user: { select: { name: true } } },
  },
  proposals: { where: { state: "open" }, select: { proposedById: true } },
  editions: { orderBy: { number: "desc" }, take: 1, select: { number: true } },
  approvals: { where: { endedAt: null }, select: { userId: true } },
} as const satisfies Prisma.PieceInclude;

type SummaryRow = Prisma.PieceGetPayload<{ include: typeof summaryParts }>;

async function toSummary(row: SummaryRow, viewer: Viewer, newComments: number): Promise<PieceSummary> {
  const { id, title, movement, composer, soloInstrument, limitSeconds, changedAt } = row;
  const members = toMemberRecords(row.members.filter(({ removedAt }) => removedAt === null));
  const myRole = members.find(({ userId }) => userId === viewer.userId)?.role ?? "reader";
  const me = { ...viewer, role: myRole };
  const ofMine = row.proposals.filter(({ proposedById }) =>
    isOwnProposal(me, row.members, proposedById),
  ).length;
  const ofOther = row.proposals.length - ofMine;
  const freezing = (await isAskedToFreeze(row, viewer)) ? 1 : 0;
  return {
    ...{ id, title, movement, composer, soloInstrument, limitSeconds, changedAt, myRole, members },
    occasion: row.branchName,
    music: row.branchOfId ?? id,
    waitsForMe: isPlayer(myRole) ? ofOther + freezing : 0,
    waitsForOther: ofMine,
    newComments,
    lastEdition: row.editions[0]?.number ?? null,
  };
}

/** Whether the other player has agreed to freeze what stands now, and the viewer has not answered. */
async function isAskedToFreeze(row: SummaryRow, viewer: Viewer): Promise<boolean> {
  if (row.approvals.length === 0 || row.approvals.some(({ userId }) => userId === viewer.userId))
    return false;
  const piece = await readWorkingPiece(row.id);
  return piece.canFreeze && piece.approvals.length > 0;
}
