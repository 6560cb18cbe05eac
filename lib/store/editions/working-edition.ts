import type { Prisma } from "@/generated/prisma/client";
import { type CutTerms, cutTermsSchema } from "@/lib/edition/cut-terms";
import {
  type EditionContent,
  hashEdition,
  isSameEdition,
  readEditionContent,
  sortCuts,
} from "@/lib/edition/edition-content";
import { tempoTermsSchema } from "@/lib/edition/tempo-terms";
import { type Database, database } from "../database";
import { readPlayers } from "../pieces/read-piece";
import { findMainSource } from "../pieces/score-of-source";
import { findStandingRewrites } from "../rewrites/standing-rewrites";
import { findLastApprovals, type LastApproval } from "./last-approvals";
import { findMarksOfPiece } from "./marks-of-piece";

export interface ApprovalRecord {
  readonly userId: string;
  readonly at: Date;
}

/** What would be frozen now, and how far it is from that. */
export interface WorkingEdition {
  /** The number it would get. */
  readonly number: number;
  readonly content: EditionContent;
  readonly hash: string;
  /** How many proposals wait for an answer. */
  readonly openProposals: number;
  /** Who has agreed to freeze exactly this. */
  readonly approvals: readonly ApprovalRecord[];
  /** What each player agreed to last, be it this, something earlier, or the last edition. */
  readonly lastApprovals: readonly LastApproval[];
  /** `hashMarks` of the room at that moment: an open page compares it with the room it sees. */
  readonly marksHash: string;
  /** Whether a player may agree to freeze it now. */
  readonly canFreeze: boolean;
  /** What is still in the way; null when nothing is. */
  readonly whyNot: string | null;
}

/** What the next edition needs to know of the piece as it stands, beyond what is shown. */
export interface WorkingPiece extends WorkingEdition {
  readonly players: Awaited<ReturnType<typeof readPlayers>>;
  readonly agreedProposals: readonly string[];
  /** The versions of rewrites that stand, by id. */
  readonly standingRewrites: readonly string[];
  readonly previousHash: string | null;
}

/** What stands now, as one consistent picture: an answer that arrives meanwhile changes all of it or nothing. */
export function readWorkingPiece(pieceId: string): Promise<WorkingPiece> {
  return database().$transaction((tx) => findWorkingPiece(pieceId, tx), { isolationLevel: "RepeatableRead" });
}

/**
 * Reads it all through `tx`: a repeatable read, or one that holds the piece. Inside `inPiece` nothing of it can change
 * until the transaction ends, what stands in the room included.
 */
export async function findWorkingPiece(pieceId: string, tx: Prisma.TransactionClient): Promise<WorkingPiece> {
  const source = await findMainSource(pieceId, tx);
  const piece = await tx.piece.findUniqueOrThrow({ where: { id: pieceId }, select: { tempo: true } });
  const agreed = await findAgreed(pieceId, tx);
  const rewrites = await findStandingRewrites(pieceId, tx);
  const { marks, marksHash } = await findMarksOfPiece(tx, pieceId, source);
  const content: EditionContent = {
    ...marks,
    schema: 2,
    sourceHash: source.hash,
    partRoles: source.partRoles,
    cuts: sortCuts(agreed.map(({ terms }) => terms)),
    tempo: tempoTermsSchema.parse(piece.tempo),
  };
  const hash = hashEdition(content);
  const last = await tx.edition.findFirst({
    where: { pieceId },
    orderBy: { number: "desc" },
    select: { number: true, hash: true, content: true },
  });
  const players = await readPlayers(pieceId, tx);
  const openProposals = await tx.proposal.count({ where: { pieceId, state: "open" } });
  const approvals = await findApprovals(pieceId, hash, players, tx);
  const ids = players.map(({ userId }) => userId);
  const lastApprovals = await findLastApprovals(tx, pieceId, ids);
  const isUnchanged = last !== null && isSameEdition(readEditionContent(last.content), content);
  const whyNot = sayWhyNot({ openProposals, players, last, isUnchanged });
  return {
    ...{ content, hash, marksHash, openProposals, approvals, lastApprovals, players, whyNot },
    number: (last?.number ?? 0) + 1,
    canFreeze: whyNot === null,
    agreedProposals: [
      ...agreed.map(({ id }) => id),
      ...rewrites.flatMap(({ proposalId }) => proposalId ?? []),
    ],
    standingRewrites: rewrites.map(({ id }) => id),
    previousHash: last?.hash ?? null,
  };
}

/** The cuts that both agreed to, in the order of the page. */
export async function findAgreedCuts(pieceId: string, db: Database = database()): Promise<CutTerms[]> {
  return sortCuts((await findAgreed(pieceId, db)).map(({ terms }) => terms));
}

async function findAgreed(pieceId: string, db: Database): Promise<{ id: string; terms: CutTerms }[]> {
  const rows = await db.proposal.findMany({
    where: { pieceId, kind: "cut", state: "agreed" },
    select: { id: true, terms: true },
  });
  return rows.map(({ id, terms }) => ({ id, terms: cutTermsSchema.parse(terms) }));
}

/** Who of the present players has agreed to exactly this content. */
async function findApprovals(
  pieceId: string,
  contentHash: string,
  players: WorkingPiece["players"],
  db: Database,
): Promise<ApprovalRecord[]> {
  return db.approval.findMany({
    where: { pieceId, contentHash, endedAt: null, userId: { in: players.map(({ userId }) => userId) } },
    orderBy: { at: "asc" },
    select: { userId: true, at: true },
  });
}

function sayWhyNot(piece: {
  openProposals: number;
  players: WorkingPiece["players"];
  last: { number: number } | null;
  /** Whether the last edition decides the same, whatever it was frozen as. */
  isUnchanged: boolean;
}): string | null {
  const missing = (["pianist", "soloist"] as const).find(
    (role) => !piece.players.some((player) => player.role === role),
  );
  if (missing) return `An edition is agreed by two players, and there is no ${missing} here yet.`;
  if (piece.openProposals === 1) return "Cannot freeze: one answer is open.";
  if (piece.openProposals > 1) return `Cannot freeze: ${piece.openProposals} answers are open.`;
  if (piece.last && piece.isUnchanged) return `Nothing has changed since № ${piece.last.number}.`;
  return null;
}
