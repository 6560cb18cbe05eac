import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { findStandingRewrites } from "./standing-rewrites";

/** What every member of a piece may see of its rewrites: those in the edition that would be frozen now, by number. */
export async function readStandingRewrites(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<readonly { readonly terms: RewriteTerms; readonly termsHash: string }[], StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  return success(await findStandingRewrites(pieceId, database()));
}
