import { z } from "zod";
import { hashSchema } from "@/lib/edition/cut-terms";
import { writeEditionContent } from "@/lib/edition/edition-content";
import { engraverVersion } from "@/lib/engrave/engraver-version";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { inPiece, noteChange, type PieceChangeWork } from "../in-piece";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { type EditionRecord, editionParts, toEditionRecord } from "./edition-record";
import { endApprovals } from "./end-approvals";
import { endOvertakenApprovals } from "./end-overtaken-approvals";
import { type ApprovalRecord, findWorkingPiece, type WorkingPiece } from "./working-edition";

const approveSchema = z.object({ hash: hashSchema });

export interface ApprovedEdition {
  /** The edition, when this was the second yes; null while the other player's is missing. */
  readonly frozen: EditionRecord | null;
  readonly approvals: readonly ApprovalRecord[];
}

/**
 * A player's yes to freezing exactly the content with this hash. The hash is computed again from what is stored,
 * the room's log included, and the second yes makes the edition in the same transaction.
 *
 * @returns "stale-terms" when the content is no longer what was seen, "conflict" when it cannot be frozen now.
 */
export async function approveEdition(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<ApprovedEdition, StoreProblem>> {
  const asked = parseInput(approveSchema, input);
  if (!asked.ok) return asked;
  const approved = await inPiece<ApprovedEdition>(viewer, pieceId, "approve", async (work) => {
    const piece = await findWorkingPiece(pieceId, work.tx);
    if (piece.hash !== asked.value.hash) return failure(changedMeanwhile);
    if (piece.whyNot !== null) return failure({ kind: "conflict", sentence: piece.whyNot });
    const approvals = await addApproval(work, piece);
    const isAgreed = piece.players.every(({ userId }) =>
      approvals.some((approval) => approval.userId === userId),
    );
    if (isAgreed) return success({ frozen: await freeze(work, piece, approvals), approvals });
    await noteChange(work, {
      what: "edition approved",
      about: { number: piece.number, hash: piece.hash },
      change: "approvals",
    });
    return success({ frozen: null, approvals });
  });
  // A yes to what no longer stands is over, also should it come to stand again.
  if (!approved.ok && approved.problem.kind === "stale-terms") await endOvertakenApprovals(pieceId);
  return approved;
}

const changedMeanwhile: StoreProblem = {
  kind: "stale-terms",
  sentence: "Something has changed since this was on your screen. Look again before you freeze it.",
};

/** Approvals with the viewer's among them, given now unless it was there already. Those to anything else are over. */
async function addApproval(
  { tx, membership }: PieceChangeWork,
  piece: WorkingPiece,
): Promise<readonly ApprovalRecord[]> {
  const { pieceId, userId } = membership;
  await tx.approval.updateMany({
    where: { pieceId, endedAt: null, contentHash: { not: piece.hash } },
    data: { endedAt: now() },
  });
  if (piece.approvals.some((approval) => approval.userId === userId)) return piece.approvals;
  const [at, content] = [now(), writeEditionContent(piece.content)];
  await tx.approval.create({ data: { pieceId, userId, contentHash: piece.hash, content, at } });
  return [...piece.approvals, { userId, at }];
}

async function freeze(
  work: PieceChangeWork,
  piece: WorkingPiece,
  approvals: readonly ApprovalRecord[],
): Promise<EditionRecord> {
  const { tx, membership } = work;
  const { pieceId } = membership;
  const { number, hash, previousHash } = piece;
  const signed = approvals.flatMap(({ userId, at }) => {
    const player = piece.players.find((candidate) => candidate.userId === userId);
    return player ? [{ ...player, at }] : [];
  });
  const row = await tx.edition.create({
    data: {
      ...{ pieceId, number, hash, previousHash },
      content: writeEditionContent(piece.content),
      frozenAt: now(),
      rendererVersion: engraverVersion,
      approvals: { create: signed },
      proposals: { create: piece.agreedProposals.map((proposalId) => ({ proposalId })) },
      rewrites: { create: piece.standingRewrites.map((rewriteId) => ({ rewriteId })) },
    },
    include: editionParts,
  });
  await endApprovals(tx, pieceId);
  await noteChange(work, { what: "edition frozen", about: { number, hash }, change: "editions" });
  return toEditionRecord(row);
}
