import { z } from "zod";
import { rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import { failure, type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import { endApprovals } from "../editions/end-approvals";
import { inPiece, type PieceChangeWork } from "../in-piece";
import { parseInput } from "../parse-input";
import { readPieceScore } from "../pieces/read-piece-score";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { findCurrentRewrite } from "./find-rewrite";
import { recordOf } from "./list-rewrites";
import { otherSourceOfRewrite } from "./prepare-rewrite";
import { noteRewrite, recordDeed } from "./record-deed";
import { refuseSharedBars } from "./refuse-shared-bars";
import type { RewriteRecord, RewriteRow } from "./rewrite-record";

const bringBackSchema = z.object({ rewriteId: z.string().max(100) });

/**
 * Brings a rewrite back that was taken off, as it was: told, it stands again; private, it is its author's again; what was asked
 * is there to be asked anew (`shareRewrite`), since a yes is not brought back by one player alone.
 *
 * @returns "conflict" when another rewrite stands in these bars now.
 */
export async function bringBackRewrite(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<RewriteRecord, StoreProblem>> {
  const asked = parseInput(bringBackSchema, input);
  if (!asked.ok) return asked;
  const { rewriteId } = asked.value;
  const membership = await readMembership(viewer, pieceId, "rewrite");
  if (!membership.ok) return membership;
  const read = await readPieceScore(viewer, pieceId);
  if (!read.ok) return read;
  return inPiece(viewer, pieceId, "rewrite", async (work) => {
    const found = await findCurrentRewrite(work, rewriteId);
    if (!found.ok) return found;
    if (rewriteTermsSchema.parse(found.value.terms).sourceHash !== read.value.sourceHash)
      return failure(otherSourceOfRewrite);
    const back = await bringBack(work, read.value.score, found.value);
    return back.ok ? success(await recordOf(viewer, pieceId, rewriteId, work.tx)) : back;
  });
}

/** What is there already stays so. */
export async function bringBack(
  work: PieceChangeWork,
  score: Score,
  row: RewriteRow,
): Promise<Result<null, StoreProblem>> {
  const { id: rewriteId, sharing, takenOffAt } = row;
  if (takenOffAt === null) return success(null);
  if (sharing === "told") {
    const free = await refuseSharedBars(work, score, rewriteTermsSchema.parse(row.terms), null);
    if (!free.ok) return free;
    await endApprovals(work.tx, work.membership.pieceId);
  }
  await work.tx.rewrite.update({ where: { id: rewriteId }, data: { takenOffAt: null } });
  await recordDeed(work, { rewriteId, what: "brought_back", sharing, reason: "" });
  if (sharing !== "only_me") await noteRewrite(work, "rewrite brought back", row);
  return success(null);
}
