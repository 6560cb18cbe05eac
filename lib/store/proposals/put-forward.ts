import { Prisma } from "@/generated/prisma/client";
import type { CutReasons } from "@/lib/edition/cut-reasons";
import type { CutTerms } from "@/lib/edition/cut-terms";
import { hashTerms } from "@/lib/edition/hash-terms";
import { now } from "../clock";
import type { PieceChangeWork } from "../in-piece";
import { type ProposalRow, proposalParts } from "./proposal-record";

interface NewProposal {
  readonly terms: CutTerms;
  readonly reason: string;
  readonly why: CutReasons | null;
  /** The proposal in whose place this one is put; it keeps that one's number. */
  readonly replaces: { readonly id: string; readonly number: number } | null;
}

/** The number that the next new proposal of the piece gets, while the piece is held. */
export async function nextNumber({ tx, membership }: PieceChangeWork): Promise<number> {
  const { pieceId } = membership;
  const last = await tx.proposal.aggregate({ where: { pieceId }, _max: { number: true } });
  return (last._max.number ?? 0) + 1;
}

/** Stores a new open proposal of the viewer. */
export async function putForward(
  work: PieceChangeWork,
  { terms, reason, why, replaces }: NewProposal,
): Promise<ProposalRow> {
  const { pieceId, userId } = work.membership;
  return work.tx.proposal.create({
    data: {
      pieceId,
      proposedById: userId,
      number: replaces?.number ?? (await nextNumber(work)),
      supersedesId: replaces?.id ?? null,
      terms,
      termsHash: hashTerms(terms),
      reason,
      why: why ?? Prisma.DbNull,
      createdAt: now(),
    },
    include: proposalParts,
  });
}
