import { Prisma } from "@/generated/prisma/client";
import type { CutReasons } from "@/lib/edition/cut-reasons";
import type { CutTerms } from "@/lib/edition/cut-terms";
import { hashTerms } from "@/lib/edition/hash-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { now } from "../clock";
import type { PieceChangeWork } from "../in-piece";
import { type ProposalRow, proposalParts } from "./proposal-record";

/** The proposal in whose place another one is put; it keeps that one's number. */
type Replaced = { readonly id: string; readonly number: number } | null;

interface NewCut {
  readonly terms: CutTerms;
  readonly reason: string;
  readonly why: CutReasons | null;
  readonly replaces: Replaced;
}

interface NewRewrite {
  readonly terms: RewriteTerms;
  readonly reason: string;
  /** That of the rewrite. */
  readonly number: number;
  readonly replaces: Replaced;
}

/** The number that the next new cut of the piece gets, while the piece is held. */
export async function nextNumber({ tx, membership }: PieceChangeWork): Promise<number> {
  const { pieceId } = membership;
  const last = await tx.proposal.aggregate({ where: { pieceId, kind: "cut" }, _max: { number: true } });
  return (last._max.number ?? 0) + 1;
}

/** Stores a new open cut of the viewer's. */
export async function putForward(
  work: PieceChangeWork,
  { terms, reason, why, replaces }: NewCut,
): Promise<ProposalRow> {
  return store(work, {
    ...{ kind: "cut", terms, termsHash: hashTerms(terms), reason, why: why ?? Prisma.DbNull },
    number: replaces?.number ?? (await nextNumber(work)),
    supersedesId: replaces?.id ?? null,
  });
}

/** Stores a new open proposal of the viewer's to agree to a rewrite. */
export async function putRewriteForward(
  work: PieceChangeWork,
  { terms, reason, number, replaces }: NewRewrite,
): Promise<ProposalRow> {
  const supersedesId = replaces?.id ?? null;
  return store(work, {
    ...{ kind: "rewrite", terms, termsHash: hashTerms(terms), reason, number, supersedesId },
  });
}

function store(
  { tx, membership }: PieceChangeWork,
  data: Omit<Prisma.ProposalUncheckedCreateInput, "pieceId" | "proposedById" | "createdAt">,
): Promise<ProposalRow> {
  const { pieceId, userId } = membership;
  return tx.proposal.create({
    data: { ...data, pieceId, proposedById: userId, createdAt: now() },
    include: proposalParts,
  });
}
