import type { ProposalKind } from "@/generated/prisma/client";
import { failure, type Result, success } from "@/lib/score/result";
import type { Database } from "../database";
import type { PieceChangeWork } from "../in-piece";
import type { StoreProblem } from "../store-problem";
import { type ProposalRow, proposalParts } from "./proposal-record";

/** A proposal of the piece that is being changed. @param kind the only kind that is meant; either when it is left out. */
export async function findProposal(
  { tx, membership }: Pick<PieceChangeWork, "membership"> & { readonly tx: Database },
  proposalId: string,
  kind?: ProposalKind,
): Promise<Result<ProposalRow, StoreProblem>> {
  const row = await tx.proposal.findFirst({
    where: { id: proposalId, pieceId: membership.pieceId, ...(kind && { kind }) },
    include: proposalParts,
  });
  return row ? success(row) : failure({ kind: "not-found" });
}
