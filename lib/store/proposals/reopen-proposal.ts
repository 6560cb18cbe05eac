import { z } from "zod";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { endApprovals } from "../editions/end-approvals";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { findProposal } from "./find-proposal";
import { reasonSchema } from "./reason-schema";
import { alreadyAnswered } from "./say-state";

const reopenSchema = z.object({ proposalId: z.string().max(100), reason: reasonSchema.default("") });

/**
 * Takes one's yes to an agreed cut or rewrite back: what is printed is played again until both agree anew, to these terms or
 * to others (`counterPropose`, `keepRewrite`). Editions that were frozen with it stay as they are.
 */
export async function reopenProposal(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(reopenSchema, input);
  if (!asked.ok) return asked;
  return inPiece(viewer, pieceId, "answer", async (work) => {
    const found = await findProposal(work, asked.value.proposalId);
    if (!found.ok) return found;
    const { id: proposalId, kind, termsHash, number, state } = found.value;
    if (state !== "agreed") return failure(await alreadyAnswered(work.tx, found.value));
    const { reason } = asked.value;
    await work.tx.answer.create({
      data: { proposalId, userId: viewer.userId, answer: "reopen", reason, termsHash, at: now() },
    });
    await work.tx.proposal.update({ where: { id: proposalId }, data: { state: "reopened" } });
    await endApprovals(work.tx, pieceId);
    await noteChange(work, {
      what: `${kind} reopened`,
      about: { proposalId, number, termsHash },
      change: "proposals",
    });
    return success(null);
  });
}
