import { cutTermsSchema } from "@/lib/edition/cut-terms";
import { type EditionContent, hashEdition, noMarks, sortCuts } from "@/lib/edition/edition-content";
import { tempoTermsSchema } from "@/lib/edition/tempo-terms";
import type { Database } from "../database";
import { readPlayers } from "../pieces/read-piece";
import { findMainSource } from "../pieces/score-of-source";

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
  /** Whether a player may agree to freeze it now. */
  readonly canFreeze: boolean;
  /** What is still in the way; null when nothing is. */
  readonly whyNot: string | null;
}

/** What the next edition needs to know of the piece as it stands, beyond what is shown. */
export interface WorkingPiece extends WorkingEdition {
  readonly players: Awaited<ReturnType<typeof readPlayers>>;
  readonly agreedProposals: readonly string[];
  readonly previousHash: string | null;
}

/** Reads it all through `db`; inside `inPiece` nothing of it can change until the transaction ends. */
export async function findWorkingPiece(pieceId: string, db: Database): Promise<WorkingPiece> {
  const source = await findMainSource(pieceId, db);
  const piece = await db.piece.findUniqueOrThrow({ where: { id: pieceId }, select: { tempo: true } });
  const agreed = await db.proposal.findMany({
    where: { pieceId, state: "agreed" },
    select: { id: true, terms: true },
  });
  const content: EditionContent = {
    ...noMarks,
    schema: 2,
    sourceHash: source.hash,
    partRoles: source.partRoles,
    cuts: sortCuts(agreed.map(({ terms }) => cutTermsSchema.parse(terms))),
    tempo: tempoTermsSchema.parse(piece.tempo),
  };
  const hash = hashEdition(content);
  const last = await db.edition.findFirst({
    where: { pieceId },
    orderBy: { number: "desc" },
    select: { number: true, hash: true },
  });
  const players = await readPlayers(pieceId, db);
  const openProposals = await db.proposal.count({ where: { pieceId, state: "open" } });
  const approvals = await findApprovals(pieceId, hash, players, db);
  const whyNot = sayWhyNot({ openProposals, players, hash, last });
  return {
    ...{ content, hash, openProposals, approvals, players, whyNot },
    number: (last?.number ?? 0) + 1,
    canFreeze: whyNot === null,
    agreedProposals: agreed.map(({ id }) => id),
    previousHash: last?.hash ?? null,
  };
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
  hash: string;
  last: { number: number; hash: string } | null;
}): string | null {
  const missing = (["pianist", "soloist"] as const).find(
    (role) => !piece.players.some((player) => player.role === role),
  );
  if (missing) return `An edition is agreed by two players, and there is no ${missing} here yet.`;
  if (piece.openProposals === 1) return "Cannot freeze: one answer is open.";
  if (piece.openProposals > 1) return `Cannot freeze: ${piece.openProposals} answers are open.`;
  if (piece.last?.hash === piece.hash) return `Nothing has changed since № ${piece.last.number}.`;
  return null;
}
