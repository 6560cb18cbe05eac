import { z } from "zod";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { findProposal } from "./find-proposal";
import { alreadyAnswered } from "./say-state";

const withdrawSchema = z.object({ proposalId: z.string().max(100) });

/** Takes back an open proposal of one's own. It stays on record, and can be put forward anew. */
export async function withdrawProposal(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(withdrawSchema, input);
  if (!asked.ok) return asked;
  return inPiece(viewer, pieceId, "propose", async (work) => {
    const found = await findProposal(work, asked.value.proposalId);
    if (!found.ok) return found;
    const { id: proposalId, kind, proposedById: userId, termsHash, number, state } = found.value;
    if (userId !== viewer.userId)
      return failure({
        kind: "not-allowed",
        sentence: "Only who put it forward takes it back. You can decline it.",
      });
    if (state !== "open") return failure(await alreadyAnswered(work.tx, found.value));
    await work.tx.answer.create({
      data: { proposalId, userId, answer: "withdraw", reason: "", termsHash, at: now() },
    });
    await work.tx.proposal.update({ where: { id: proposalId }, data: { state: "withdrawn" } });
    await noteChange(work, {
      what: `${kind} withdrawn`,
      about: { proposalId, number, termsHash },
      change: "proposals",
    });
    return success(null);
  });
}
