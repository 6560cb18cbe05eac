import type { AnswerKind } from "@/generated/prisma/client";
import { now } from "../clock";
import type { PieceChangeWork } from "../in-piece";
import type { RewriteRow } from "./rewrite-record";

interface Ending {
  readonly answer: AnswerKind;
  readonly state: "withdrawn" | "reopened" | "superseded";
}

/**
 * Ends what the other player was asked about a version that is not asked about any more: an open question is taken back,
 * a yes reopened. What was declined or taken back before stays as it was.
 */
export async function endQuestion(
  work: PieceChangeWork,
  { proposal }: Pick<RewriteRow, "proposal">,
  reason: string,
): Promise<void> {
  if (proposal?.state === "open")
    await close(work, proposal, { answer: "withdraw", state: "withdrawn" }, reason);
  if (proposal?.state === "agreed")
    await close(work, proposal, { answer: "reopen", state: "reopened" }, reason);
}

/** The same, because another version is put in its place. */
export async function supersedeQuestion(
  work: PieceChangeWork,
  { proposal }: Pick<RewriteRow, "proposal">,
): Promise<void> {
  if (proposal?.state === "open") await close(work, proposal, { answer: "counter", state: "superseded" }, "");
  // As with cuts: what was agreed held until now, and nobody said anything to it.
  if (proposal?.state === "agreed")
    await work.tx.proposal.update({ where: { id: proposal.id }, data: { state: "superseded" } });
}

async function close(
  { tx, membership }: PieceChangeWork,
  { id: proposalId, termsHash }: NonNullable<RewriteRow["proposal"]>,
  { answer, state }: Ending,
  reason: string,
): Promise<void> {
  const { userId } = membership;
  await tx.answer.create({ data: { proposalId, userId, answer, reason, termsHash, at: now() } });
  await tx.proposal.update({ where: { id: proposalId }, data: { state } });
}
