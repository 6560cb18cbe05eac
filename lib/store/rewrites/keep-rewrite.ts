import { z } from "zod";
import { hashTerms } from "@/lib/edition/hash-terms";
import { type RewriteTerms, rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { inPiece, type PieceChangeWork } from "../in-piece";
import { parseInput } from "../parse-input";
import { reasonSchema } from "../proposals/reason-schema";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { findCurrentRewrite } from "./find-rewrite";
import { replace } from "./give-way";
import { recordOf } from "./list-rewrites";
import { type PreparedRewrite, prepareRewrite } from "./prepare-rewrite";
import { askAboutRewrite, tellRewrite } from "./put-to-the-other";
import { recordDeed } from "./record-deed";
import type { RewriteRecord, RewriteRow, RewriteSharing } from "./rewrite-record";

/** More versions than anybody writes into one piece; all of them are listed at once. */
const mostVersions = 2_000;

export const sharingSchema = z.enum(["only_me", "told", "asked"]);

const keepSchema = z.object({
  terms: rewriteTermsSchema,
  sharing: sharingSchema,
  /** The version that it was made from; null for a new rewrite. */
  replaces: z.string().max(100).nullable(),
  /** For the other player, when they are told or asked. */
  reason: reasonSchema.default(""),
});

/**
 * Keeps what the pianist plays instead of the print: for their own eyes, told to the other player, or put to them. A version
 * that is made from another one keeps its number. What is told takes its place at once; what is asked about, once it is
 * agreed; a private one stands beside it. Keeping the same notes twice keeps them once.
 *
 * @returns "invalid-input" when the notes do not fit the music, "conflict" when other rewrites stand in these bars,
 * "stale-terms" when the version it was made from was replaced meanwhile.
 */
export async function keepRewrite(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<RewriteRecord, StoreProblem>> {
  const asked = parseInput(keepSchema, input);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId, "rewrite");
  if (!membership.ok) return membership;
  // Reading a score takes long; it is done before the piece is held.
  const prepared = await prepareRewrite(viewer, pieceId, asked.value.terms);
  if (!prepared.ok) return prepared;
  return inPiece(viewer, pieceId, "rewrite", async (work) => {
    const kept = await keepVersion(work, prepared.value, asked.value);
    return kept.ok ? success(await recordOf(viewer, pieceId, kept.value, work.tx)) : kept;
  });
}

interface Wanted {
  readonly sharing: RewriteSharing;
  readonly replaces: string | null;
  readonly reason: string;
}

/** @returns the id of the version. */
async function keepVersion(
  work: PieceChangeWork,
  { terms, score }: PreparedRewrite,
  { sharing, replaces, reason }: Wanted,
): Promise<Result<string, StoreProblem>> {
  const same = await findSame(work, terms, sharing);
  if (same) return success(same.id);
  const from = replaces === null ? null : await findCurrentRewrite(work, replaces);
  if (from && !from.ok) return from;
  const room = await refuseMore(work);
  if (!room.ok) return room;
  const version = await addVersion(work, terms, { sharing, from: from?.value ?? null, reason });
  if (sharing === "told") {
    const told = await tellRewrite(work, score, version);
    if (!told.ok) return told;
  }
  if (sharing === "asked") {
    const put = await askAboutRewrite(work, score, version, reason);
    if (!put.ok) return put;
  }
  return success(version.id);
}

/** A version of the viewer's own with these very notes, shared in this very way, that is still there. */
function findSame(
  { tx, membership }: PieceChangeWork,
  terms: RewriteTerms,
  sharing: RewriteSharing,
): Promise<{ id: string } | null> {
  const { pieceId, userId: authorId } = membership;
  const isOpenStill = sharing === "asked" ? { proposal: { state: { in: ["open", "agreed"] } } } : {};
  return tx.rewrite.findFirst({
    where: {
      ...{ pieceId, authorId, sharing, termsHash: hashTerms(terms), replacedAt: null, takenOffAt: null },
      ...(isOpenStill as object),
    },
    select: { id: true },
  });
}

async function refuseMore({ tx, membership }: PieceChangeWork): Promise<Result<null, StoreProblem>> {
  const count = await tx.rewrite.count({ where: { pieceId: membership.pieceId } });
  if (count < mostVersions) return success(null);
  const sentence = `A piece keeps at most ${mostVersions.toLocaleString("en")} versions of rewrites.`;
  return failure({ kind: "conflict", sentence });
}

interface NewVersion {
  readonly sharing: RewriteSharing;
  readonly from: RewriteRow | null;
  /** Where it is made from none: the number that it had before; null for a rewrite that is new. */
  readonly number?: number | null;
  readonly reason: string;
}

/** Stores a version of the viewer's; a private one that it was made from gives way to it. */
export async function addVersion(
  work: PieceChangeWork,
  terms: RewriteTerms,
  { sharing, from, number: before = null, reason }: NewVersion,
): Promise<{ id: string; number: number; terms: RewriteTerms; termsHash: string }> {
  const { pieceId, userId: authorId } = work.membership;
  const number = from?.number ?? before ?? (await nextNumber(work));
  const termsHash = hashTerms(terms);
  const { id } = await work.tx.rewrite.create({
    data: {
      ...{ pieceId, number, authorId, terms, termsHash, sharing, createdAt: now() },
      replacesId: from?.id ?? null,
    },
    select: { id: true },
  });
  await recordDeed(work, { rewriteId: id, what: "kept", sharing, reason });
  if (from?.sharing === "only_me") await replace(work, from);
  return { id, number, terms, termsHash };
}

/** Numbers are counted over everything, so that a private rewrite keeps its own when it is shared. */
async function nextNumber({ tx, membership }: PieceChangeWork): Promise<number> {
  const { pieceId } = membership;
  const last = await tx.rewrite.aggregate({ where: { pieceId }, _max: { number: true } });
  return (last._max.number ?? 0) + 1;
}
