import { z } from "zod";
import { hashSchema } from "@/lib/edition/cut-terms";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { endApprovals } from "../editions/end-approvals";
import { inPiece, noteChange, type PieceChangeWork } from "../in-piece";
import { parseInput } from "../parse-input";
import { readPieceScore } from "../pieces/read-piece-score";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { findProposal } from "./find-proposal";
import { isOwnProposal } from "./is-own-proposal";
import {
  type ProposalRecord,
  type ProposalRow,
  type RewriteProposalRecord,
  toEitherRecord,
} from "./proposal-record";
import { reasonSchema } from "./reason-schema";
import { rulesOfKind } from "./rules-of-kind";
import { alreadyAnswered } from "./say-state";

const answerSchema = z
  .object({
    proposalId: z.string().max(100),
    answer: z.enum(["agree", "decline"]),
    /** Hash of the terms that were on the screen of whoever answers. */
    termsHash: hashSchema,
    reason: reasonSchema.default(""),
  })
  .refine(({ answer, reason }) => answer === "agree" || reason !== "", {
    message: "Say in a few words why not, so that another way can be found.",
    path: ["reason"],
  });

type Answer = z.infer<typeof answerSchema>;

/**
 * The other player's yes or no to exactly the terms that player saw. Nobody answers a proposal of their own.
 *
 * @returns "stale-terms" when the terms seen are not those stored, "already-answered" when somebody was faster.
 */
export async function answerProposal(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<ProposalRecord | RewriteProposalRecord, StoreProblem>> {
  const asked = parseInput(answerSchema, input);
  if (!asked.ok) return asked;
  // Reading a score takes long; it is done before the piece is held.
  const read = await readPieceScore(viewer, pieceId);
  if (!read.ok) return read;
  return inPiece(viewer, pieceId, "answer", async (work) => {
    const found = await findProposal(work, asked.value.proposalId);
    if (!found.ok) return found;
    const mine = await refuseOwn(work, found.value);
    if (!mine.ok) return mine;
    if (found.value.state !== "open") return failure(await alreadyAnswered(work.tx, found.value));
    if (found.value.termsHash !== asked.value.termsHash) return failure(staleTerms);
    if (asked.value.answer === "agree") {
      const possible = await rulesOfKind[found.value.kind].refuseAgreeing(work, found.value, read.value);
      if (!possible.ok) return possible;
    }
    return settle(work, found.value, asked.value);
  });
}

const staleTerms: StoreProblem = {
  kind: "stale-terms",
  sentence: "The terms on your screen are not the terms that are proposed. Look again before you answer.",
};

/** A player answers what the other player put forward, or what somebody put forward who has left that place. */
export async function refuseOwn(
  { tx, membership }: PieceChangeWork,
  proposal: ProposalRow,
): Promise<Result<null, StoreProblem>> {
  const { pieceId, userId, role } = membership;
  const people = await tx.member.findMany({ where: { pieceId }, select: { userId: true, role: true } });
  if (!isOwnProposal(membership, people, proposal.proposedById)) return success(null);
  const who = proposal.proposedById === userId ? "You" : `The ${role} before you`;
  return failure({ kind: "not-allowed", sentence: `${who} put this forward. The other player answers it.` });
}

async function settle(
  work: PieceChangeWork,
  proposal: ProposalRow,
  { answer, reason }: Answer,
): Promise<Result<ProposalRecord | RewriteProposalRecord, StoreProblem>> {
  const { tx, membership } = work;
  const { id: proposalId, kind, termsHash, number } = proposal;
  await tx.answer.create({
    data: { proposalId, userId: membership.userId, answer, reason, termsHash, at: now() },
  });
  const state = answer === "agree" ? "agreed" : "declined";
  await tx.proposal.update({ where: { id: proposalId }, data: { state } });
  if (answer === "agree") {
    await rulesOfKind[kind].giveWay(work, proposal);
    await endApprovals(tx, membership.pieceId);
  }
  await noteChange(work, {
    what: `${kind} ${state}`,
    about: { proposalId, number, termsHash },
    change: "proposals",
  });
  const settled = await findProposal(work, proposalId);
  return settled.ok ? success(toEitherRecord(settled.value)) : settled;
}
