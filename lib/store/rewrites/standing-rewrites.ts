import type { Prisma } from "@/generated/prisma/client";
import { type RewriteTerms, rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import type { Database } from "../database";

/** A version of a rewrite that is in the edition that would be frozen now. */
export interface StandingRewrite {
  readonly id: string;
  readonly number: number;
  readonly terms: RewriteTerms;
  readonly termsHash: string;
  readonly sharing: "told" | "asked";
  /** The proposal that was agreed to; null where the rewrite was only told. */
  readonly proposalId: string | null;
}

/** What makes a version stand: the same as `isStanding`, for the database. */
export const standing = {
  takenOffAt: null,
  replacedAt: null,
  OR: [{ sharing: "told" }, { sharing: "asked", proposal: { state: "agreed" } }],
} as const satisfies Prisma.RewriteWhereInput;

/** Every rewrite of a piece that is told or agreed and stands, by number. */
export async function findStandingRewrites(pieceId: string, db: Database): Promise<StandingRewrite[]> {
  const rows = await db.rewrite.findMany({ where: { pieceId, ...standing }, orderBy: { number: "asc" } });
  return rows.map(({ id, number, terms, termsHash, sharing, proposalId }) => ({
    ...{ id, number, termsHash },
    sharing: sharing === "told" ? "told" : "asked",
    terms: rewriteTermsSchema.parse(terms),
    proposalId: sharing === "asked" ? proposalId : null,
  }));
}
