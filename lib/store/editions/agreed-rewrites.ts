import { noMarks, sortMarks } from "@/lib/edition/edition-content";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { Database } from "../database";
import { findStandingRewrites } from "../rewrites/standing-rewrites";

/** The rewrites that stand, told and agreed ones, in the order of the page: for the edition that is being made. */
export async function findAgreedRewrites(pieceId: string, db: Database): Promise<readonly RewriteTerms[]> {
  const found = await findStandingRewrites(pieceId, db);
  return sortMarks({ ...noMarks, rewrites: found.map(({ terms }) => terms) }).rewrites;
}
