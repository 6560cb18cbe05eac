import { z } from "zod";
import { type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { endApprovals } from "../editions/end-approvals";
import { inPiece, type PieceChangeWork } from "../in-piece";
import { parseInput } from "../parse-input";
import { reasonSchema } from "../proposals/reason-schema";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { endQuestion } from "./end-question";
import { findCurrentRewrite } from "./find-rewrite";
import { recordOf } from "./list-rewrites";
import { noteRewrite, recordDeed } from "./record-deed";
import { isStanding, type RewriteRecord, type RewriteRow } from "./rewrite-record";

const takeOffSchema = z.object({ rewriteId: z.string().max(100), reason: reasonSchema.default("") });

/**
 * Takes a rewrite off: the print is played again. It can be brought back. What the other player was asked about it is taken
 * back, a yes reopened. Editions that were frozen with it stay as they are.
 */
export async function takeOffRewrite(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<RewriteRecord, StoreProblem>> {
  const asked = parseInput(takeOffSchema, input);
  if (!asked.ok) return asked;
  const { rewriteId, reason } = asked.value;
  return inPiece(viewer, pieceId, "rewrite", async (work) => {
    const found = await findCurrentRewrite(work, rewriteId);
    if (!found.ok) return found;
    await takeOff(work, found.value, reason);
    return success(await recordOf(viewer, pieceId, rewriteId, work.tx));
  });
}

/** What is taken off already stays so. */
export async function takeOff(work: PieceChangeWork, row: RewriteRow, reason: string): Promise<void> {
  const { id: rewriteId, sharing, takenOffAt } = row;
  if (takenOffAt !== null) return;
  const stood = isStanding(row);
  await endQuestion(work, row, reason);
  await work.tx.rewrite.update({ where: { id: rewriteId }, data: { takenOffAt: now() } });
  await recordDeed(work, { rewriteId, what: "taken_off", sharing, reason });
  if (stood) await endApprovals(work.tx, work.membership.pieceId);
  if (sharing !== "only_me") await noteRewrite(work, "rewrite taken off", row);
}
