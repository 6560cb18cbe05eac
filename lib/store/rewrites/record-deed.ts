import type { RewriteDeed } from "@/generated/prisma/client";
import { now } from "../clock";
import { noteChange, type PieceChangeWork } from "../in-piece";
import type { RewriteSharing } from "./rewrite-record";

interface Done {
  readonly rewriteId: string;
  readonly what: RewriteDeed;
  /** Who is to see it after that. */
  readonly sharing: RewriteSharing;
  readonly reason: string;
}

/** Writes what was done to a version of a rewrite to its own history. */
export async function recordDeed({ tx, membership }: PieceChangeWork, done: Done): Promise<void> {
  await tx.rewriteEvent.create({ data: { ...done, userId: membership.userId, at: now() } });
}

/**
 * Writes to the piece's trail what was done to a rewrite, and tells whoever has the piece open. What somebody keeps to
 * themselves is never told so.
 *
 * @param what in the past tense: "rewrite told".
 */
export async function noteRewrite(
  work: PieceChangeWork,
  what: string,
  rewrite: { readonly id: string; readonly number: number; readonly termsHash: string },
  proposalId: string | null = null,
): Promise<void> {
  const { id: rewriteId, number, termsHash } = rewrite;
  const about = { rewriteId, number, termsHash, ...(proposalId === null ? {} : { proposalId }) };
  await noteChange(work, { what, about, change: "rewrites" });
}
