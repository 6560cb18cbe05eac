import type { CutTerms } from "@/lib/edition/cut-terms";
import { hashTerms } from "@/lib/edition/hash-terms";
import { now } from "../clock";
import type { PieceChangeWork } from "../in-piece";
import { type ProposalRow, proposalParts } from "./proposal-record";

interface NewProposal {
  readonly terms: CutTerms;
  readonly reason: string;
  /** The proposal in whose place this one is put; it keeps that one's number. */
  readonly replaces: { readonly id: string; readonly number: number } | null;
}

/** Stores a new open proposal of the viewer. */
export async function putForward(
  { tx, membership }: PieceChangeWork,
  { terms, reason, replaces }: NewProposal,
): Promise<ProposalRow> {
  const { pieceId, userId } = membership;
  const last = await tx.proposal.aggregate({ where: { pieceId }, _max: { number: true } });
  return tx.proposal.create({
    data: {
      pieceId,
      proposedById: userId,
      number: replaces?.number ?? (last._max.number ?? 0) + 1,
      supersedesId: replaces?.id ?? null,
      terms,
      termsHash: hashTerms(terms),
      reason,
      createdAt: now(),
    },
    include: proposalParts,
  });
}
