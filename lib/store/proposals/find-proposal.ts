import { failure, type Result, success } from "@/lib/score/result";
import type { Database } from "../database";
import type { PieceChangeWork } from "../in-piece";
import type { StoreProblem } from "../store-problem";
import { type ProposalRow, proposalParts } from "./proposal-record";

/** A proposal of the piece that is being changed. */
export async function findProposal(
  { tx, membership }: Pick<PieceChangeWork, "membership"> & { readonly tx: Database },
  proposalId: string,
): Promise<Result<ProposalRow, StoreProblem>> {
  const row = await tx.proposal.findFirst({
    where: { id: proposalId, pieceId: membership.pieceId },
    include: proposalParts,
  });
  return row ? success(row) : failure({ kind: "not-found" });
}
