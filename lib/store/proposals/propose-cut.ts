import { z } from "zod";
import { hashSchema } from "@/lib/edition/cut-terms";
import { positionTermsSchema } from "@/lib/edition/position-terms";
import { type Result, success } from "@/lib/score/result";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import { readMembership } from "../read-membership";
import { findReasons } from "../reasons/find-reasons";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { prepareCut } from "./prepare-cut";
import { type ProposalRecord, toProposalRecord } from "./proposal-record";
import { putForward } from "./put-forward";
import { reasonSchema } from "./reason-schema";
import { refuseOverlap } from "./refuse-overlap";

export const newCutSchema = z.object({
  /** The source on whose bars the cut was chosen. */
  sourceHash: hashSchema,
  from: positionTermsSchema,
  to: positionTermsSchema,
  reason: reasonSchema,
});

/** Asks the other player to agree to a cut. Whoever proposes has agreed by that. */
export async function proposeCut(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<ProposalRecord, StoreProblem>> {
  const asked = parseInput(newCutSchema, input);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId, "propose");
  if (!membership.ok) return membership;
  const prepared = await prepareCut(viewer, pieceId, asked.value);
  if (!prepared.ok) return prepared;
  const { terms, score } = prepared.value;
  const [why = null] = await findReasons(pieceId, { cuts: [terms], number: null });
  return inPiece(viewer, pieceId, "propose", async (work) => {
    const free = await refuseOverlap(work, score, terms, null);
    if (!free.ok) return free;
    const row = await putForward(work, { terms, reason: asked.value.reason, why, replaces: null });
    await noteChange(work, {
      what: "cut proposed",
      about: { proposalId: row.id, number: row.number, termsHash: row.termsHash },
      change: "proposals",
    });
    return success(toProposalRecord(row));
  });
}
