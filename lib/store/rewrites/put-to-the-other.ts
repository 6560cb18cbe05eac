import { rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import { type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import { endApprovals } from "../editions/end-approvals";
import type { PieceChangeWork } from "../in-piece";
import { putRewriteForward } from "../proposals/put-forward";
import type { StoreProblem } from "../store-problem";
import { giveWay } from "./give-way";
import { noteRewrite } from "./record-deed";
import { refuseSharedBars } from "./refuse-shared-bars";
import type { RewriteRow } from "./rewrite-record";

type Version = Pick<RewriteRow, "id" | "number" | "terms" | "termsHash">;

/** Lets a version stand at once, and tells the other player. The version itself says already that it is told. */
export async function tellRewrite(
  work: PieceChangeWork,
  score: Score,
  version: Version,
): Promise<Result<null, StoreProblem>> {
  const terms = rewriteTermsSchema.parse(version.terms);
  const free = await refuseSharedBars(work, score, terms, version.number);
  if (!free.ok) return free;
  await giveWay(work, version, "standing");
  await endApprovals(work.tx, work.membership.pieceId);
  await noteRewrite(work, "rewrite told", version);
  return success(null);
}

/**
 * Asks the other player to agree to a version; what stands under its number holds until then. The version itself says
 * already that it is asked.
 */
export async function askAboutRewrite(
  work: PieceChangeWork,
  score: Score,
  version: Version,
  reason: string,
): Promise<Result<null, StoreProblem>> {
  const { tx, membership } = work;
  const { id, number } = version;
  const terms = rewriteTermsSchema.parse(version.terms);
  const free = await refuseSharedBars(work, score, terms, number);
  if (!free.ok) return free;
  await giveWay(work, version, "asked");
  const replaces = await tx.proposal.findFirst({
    where: { pieceId: membership.pieceId, kind: "rewrite", number },
    orderBy: [{ createdAt: "desc" }, { id: "desc" }],
  });
  const proposal = await putRewriteForward(work, { terms, reason, number, replaces });
  await tx.rewrite.update({ where: { id }, data: { proposalId: proposal.id } });
  await noteRewrite(work, "rewrite proposed", version, proposal.id);
  return success(null);
}
