import { hashTerms } from "@/lib/edition/hash-terms";
import type { Restoration } from "@/lib/edition/plan-restoration";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import type { PieceChangeWork } from "../in-piece";
import type { StoreProblem } from "../store-problem";
import { bringBack } from "./bring-back-rewrite";
import { addVersion } from "./keep-rewrite";
import { askAboutRewrite, tellRewrite } from "./put-to-the-other";
import { isSeenBy, type RewriteRow, rewriteParts } from "./rewrite-record";
import { share } from "./share-rewrite";
import { standing } from "./standing-rewrites";
import { takeOff } from "./take-off-rewrite";

/**
 * Takes off the rewrites that an old edition lacks, and lets those that it has come back: told again where they were told, else
 * put to the other player. Each keeps the number that both know it by.
 */
export async function restoreRewrites(
  work: PieceChangeWork,
  score: Score,
  { takenOff, broughtBack }: Pick<Restoration, "takenOff" | "broughtBack">,
  reason: string,
): Promise<Result<null, StoreProblem>> {
  for (const terms of takenOff) {
    const row = await work.tx.rewrite.findFirstOrThrow({
      where: { pieceId: work.membership.pieceId, termsHash: hashTerms(terms), ...standing },
      include: rewriteParts,
    });
    await takeOff(work, row, reason);
  }
  for (const terms of broughtBack) {
    const back = await bringTermsBack(work, score, terms, reason);
    if (!back.ok) return back;
  }
  return success(null);
}

async function bringTermsBack(
  work: PieceChangeWork,
  score: Score,
  terms: RewriteTerms,
  reason: string,
): Promise<Result<null, StoreProblem>> {
  const known = await findKnown(work, hashTerms(terms));
  const sharing = known?.sharing === "told" ? "told" : "asked";
  if (known?.replacedAt === null) {
    const back = await bringBack(work, score, known);
    return back.ok ? share(work, score, { ...known, takenOffAt: null }, { sharing, reason }) : back;
  }
  const from = known && (await findCurrent(work, known.number));
  const version = await addVersion(work, terms, { sharing, from, number: known?.number ?? null, reason });
  return sharing === "told"
    ? tellRewrite(work, score, version)
    : askAboutRewrite(work, score, version, reason);
}

/** The last version with these very notes that the player sees. */
async function findKnown({ tx, membership }: PieceChangeWork, termsHash: string): Promise<RewriteRow | null> {
  const rows = await tx.rewrite.findMany({
    where: { pieceId: membership.pieceId, termsHash },
    orderBy: [{ createdAt: "desc" }, { id: "desc" }],
    include: rewriteParts,
  });
  return rows.find((row) => isSeenBy(membership, row)) ?? null;
}

/** The version that others see under a number now. */
function findCurrent({ tx, membership }: PieceChangeWork, number: number): Promise<RewriteRow | null> {
  return tx.rewrite.findFirst({
    where: { pieceId: membership.pieceId, number, replacedAt: null, sharing: { not: "only_me" } },
    orderBy: [{ createdAt: "desc" }, { id: "desc" }],
    include: rewriteParts,
  });
}
