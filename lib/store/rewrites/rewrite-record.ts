import type { Prisma } from "@/generated/prisma/client";
import { type RewriteTerms, rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import { type AnswerRecord, type ProposalState, toAnswerRecord } from "../proposals/proposal-record";
import type { Viewer } from "../viewer";

/** Who is to see a rewrite: its author alone; the other player too, as it stands; or it stands once the other agrees. */
export type RewriteSharing = "only_me" | "told" | "asked";

/** What the other player is or was asked about a rewrite. */
export interface RewriteQuestion {
  readonly id: string;
  readonly state: ProposalState;
  readonly reason: string;
  readonly proposedBy: string;
  readonly createdAt: Date;
  /** In the order they were given. */
  readonly answers: readonly AnswerRecord[];
}

/** What a rewrite was before, in other notes. */
export interface EarlierRewrite {
  readonly id: string;
  readonly terms: RewriteTerms;
  readonly authorId: string;
  readonly createdAt: Date;
  /** When another version took its place. */
  readonly replacedAt: Date;
}

/** A rewrite as it is now. Its notes never change: a change is another version, with an id of its own and the same number. */
export interface RewriteRecord {
  readonly id: string;
  /** Shown on screen as "Rewrite 1". */
  readonly number: number;
  readonly terms: RewriteTerms;
  readonly termsHash: string;
  readonly sharing: RewriteSharing;
  readonly authorId: string;
  readonly createdAt: Date;
  /**
   * The version it was made from; null for the first, and where the viewer does not see that one. That version may still
   * stand: a private one stands beside what is told, and one that is asked about takes the place of what stands once it is
   * agreed.
   */
  readonly replaces: string | null;
  /** Set when it was taken off; it can be brought back. */
  readonly takenOffAt: Date | null;
  /** What was said when it was told or asked last. */
  readonly reason: string;
  /** The last question about exactly these notes; null when nobody was asked. */
  readonly proposal: RewriteQuestion | null;
  /** Numbers of the editions it was frozen in. */
  readonly frozenInEditions: readonly number[];
  /** Whether it is in the edition that would be frozen now. */
  readonly stands: boolean;
  /** The versions whose place it or another one took, the first one first; with each version of a number the same. */
  readonly earlier: readonly EarlierRewrite[];
}

export const rewriteParts = {
  events: { orderBy: [{ at: "asc" }, { id: "asc" }] },
  proposal: { include: { answers: { orderBy: [{ at: "asc" }, { id: "asc" }] } } },
  editions: { select: { edition: { select: { number: true } } }, orderBy: { edition: { number: "asc" } } },
} as const satisfies Prisma.RewriteInclude;

export type RewriteRow = Prisma.RewriteGetPayload<{ include: typeof rewriteParts }>;

/** Whether a version is in the edition that would be frozen now. */
export function isStanding(row: {
  readonly sharing: RewriteSharing;
  readonly takenOffAt: Date | null;
  readonly replacedAt: Date | null;
  readonly proposal: { readonly state: ProposalState } | null;
}): boolean {
  if (row.takenOffAt !== null || row.replacedAt !== null) return false;
  return row.sharing === "told" || (row.sharing === "asked" && row.proposal?.state === "agreed");
}

/** Whether somebody may know that this version exists. */
export function isSeenBy({ userId }: Viewer, row: Pick<RewriteRow, "sharing" | "authorId">): boolean {
  return row.sharing !== "only_me" || row.authorId === userId;
}

/** @param visible every version of the piece that the viewer sees, by id. */
export function toRewriteRecord(row: RewriteRow, visible: ReadonlyMap<string, RewriteRow>): RewriteRecord {
  const { id, number, termsHash, sharing, authorId, createdAt, replacesId, takenOffAt } = row;
  return {
    ...{ id, number, termsHash, sharing, authorId, createdAt, takenOffAt },
    terms: rewriteTermsSchema.parse(row.terms),
    replaces: replacesId !== null && visible.has(replacesId) ? replacesId : null,
    reason: reasonOf(row),
    proposal: row.proposal && sharing === "asked" ? toQuestion(row.proposal) : null,
    frozenInEditions: row.editions.map(({ edition }) => edition.number),
    stands: isStanding(row),
    earlier: [...visible.values()].flatMap((other) => toEarlier(other, number)),
  };
}

/** What was said while it was private stays private. */
function reasonOf({ events, sharing }: RewriteRow): string {
  const said = events.filter(({ what }) => what === "kept" || what === "shared");
  return said.findLast((event) => event.sharing === sharing)?.reason ?? "";
}

function toQuestion(row: NonNullable<RewriteRow["proposal"]>): RewriteQuestion {
  const { id, state, reason, proposedById, createdAt, answers } = row;
  return {
    ...{ id, state, reason, createdAt },
    proposedBy: proposedById,
    answers: answers.map(toAnswerRecord),
  };
}

function toEarlier(row: RewriteRow, number: number): EarlierRewrite[] {
  const { id, authorId, createdAt, replacedAt } = row;
  if (row.number !== number || replacedAt === null) return [];
  return [{ id, authorId, createdAt, replacedAt, terms: rewriteTermsSchema.parse(row.terms) }];
}
