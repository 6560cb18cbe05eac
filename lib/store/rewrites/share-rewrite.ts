import { z } from "zod";
import { rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import { failure, type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import { endApprovals } from "../editions/end-approvals";
import { inPiece, type PieceChangeWork } from "../in-piece";
import { parseInput } from "../parse-input";
import { readPieceScore } from "../pieces/read-piece-score";
import { reasonSchema } from "../proposals/reason-schema";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { endQuestion } from "./end-question";
import { findCurrentRewrite } from "./find-rewrite";
import { sharingSchema } from "./keep-rewrite";
import { recordOf } from "./list-rewrites";
import { otherSourceOfRewrite } from "./prepare-rewrite";
import { askAboutRewrite, tellRewrite } from "./put-to-the-other";
import { noteRewrite, recordDeed } from "./record-deed";
import { isStanding, type RewriteRecord, type RewriteRow, type RewriteSharing } from "./rewrite-record";

const shareSchema = z.object({
  rewriteId: z.string().max(100),
  sharing: sharingSchema,
  reason: reasonSchema.default(""),
});

/**
 * Says who is to see a rewrite from now on. What was declined, taken back or reopened is put to the other player anew by
 * asking again; what becomes private is taken back, and stands no longer.
 */
export async function shareRewrite(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<RewriteRecord, StoreProblem>> {
  const asked = parseInput(shareSchema, input);
  if (!asked.ok) return asked;
  const { rewriteId, sharing, reason } = asked.value;
  const membership = await readMembership(viewer, pieceId, "rewrite");
  if (!membership.ok) return membership;
  const read = await readPieceScore(viewer, pieceId);
  if (!read.ok) return read;
  return inPiece(viewer, pieceId, "rewrite", async (work) => {
    const found = await findCurrentRewrite(work, rewriteId);
    if (!found.ok) return found;
    if (found.value.takenOffAt !== null)
      return failure({ kind: "conflict", sentence: "This rewrite is taken off. Bring it back first." });
    if (rewriteTermsSchema.parse(found.value.terms).sourceHash !== read.value.sourceHash)
      return failure(otherSourceOfRewrite);
    const shared = await share(work, read.value.score, found.value, { sharing, reason });
    return shared.ok ? success(await recordOf(viewer, pieceId, rewriteId, work.tx)) : shared;
  });
}

interface Wanted {
  readonly sharing: RewriteSharing;
  readonly reason: string;
}

/** A version that is no longer, or not yet, with the other player in the way that is wanted. */
export async function share(
  work: PieceChangeWork,
  score: Score,
  row: RewriteRow,
  wanted: Wanted,
): Promise<Result<null, StoreProblem>> {
  const { sharing, reason } = wanted;
  if (isSharedSo(row, sharing)) return success(null);
  const allowed = refuseSharing(work, row, sharing);
  if (!allowed.ok) return allowed;
  const stood = isStanding(row);
  await endQuestion(work, row, reason);
  await work.tx.rewrite.update({ where: { id: row.id }, data: { sharing } });
  await recordDeed(work, { rewriteId: row.id, what: "shared", sharing, reason });
  if (stood) await endApprovals(work.tx, work.membership.pieceId);
  switch (sharing) {
    case "told":
      return tellRewrite(work, score, row);
    case "asked":
      return askAboutRewrite(work, score, row, reason);
    case "only_me":
      await noteRewrite(work, "rewrite taken back", row);
      return success(null);
  }
}

/** Asking once more is something else than having asked, once there was an answer. */
function isSharedSo({ sharing, proposal }: RewriteRow, wanted: RewriteSharing): boolean {
  if (sharing !== wanted) return false;
  return wanted !== "asked" || proposal?.state === "open" || proposal?.state === "agreed";
}

function refuseSharing(
  { membership }: PieceChangeWork,
  row: RewriteRow,
  wanted: RewriteSharing,
): Result<null, StoreProblem> {
  if (wanted === "only_me" && row.authorId !== membership.userId)
    return failure({ kind: "not-allowed", sentence: "Somebody else wrote this. You can take it off." });
  if (wanted === "told" && row.sharing === "asked" && row.proposal?.state === "agreed")
    return failure({
      kind: "conflict",
      sentence: "The other player has agreed to it, which is more than being told.",
    });
  return success(null);
}
