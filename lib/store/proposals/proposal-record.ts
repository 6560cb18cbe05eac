import type { Prisma } from "@/generated/prisma/client";
import { type CutReasons, cutReasonsSchema } from "@/lib/edition/cut-reasons";
import { type CutTerms, cutTermsSchema } from "@/lib/edition/cut-terms";
import { type RewriteTerms, rewriteTermsSchema } from "@/lib/edition/rewrite-terms";

export type ProposalState = "open" | "agreed" | "declined" | "withdrawn" | "superseded" | "reopened";

export interface AnswerRecord {
  readonly userId: string;
  readonly answer: "agree" | "decline" | "counter" | "withdraw" | "reopen";
  readonly reason: string;
  /** The terms it was said to. */
  readonly termsHash: string;
  readonly at: Date;
}

interface AskedOfTheOther {
  readonly id: string;
  /** Shown on screen, counted apart for each kind; a counter-proposal keeps the number of what it replaces. */
  readonly number: number;
  readonly termsHash: string;
  readonly reason: string;
  readonly state: ProposalState;
  readonly proposedBy: string;
  readonly createdAt: Date;
  /** In the order they were given. */
  readonly answers: readonly AnswerRecord[];
  /** The proposal that this one was put in the place of. */
  readonly supersedes: string | null;
  /** Numbers of the editions it was frozen in. */
  readonly frozenInEditions: readonly number[];
}

/** A cut that one player asked the other to agree to, with everything that was said to it. */
export interface ProposalRecord extends AskedOfTheOther {
  readonly kind: "cut";
  readonly terms: CutTerms;
  /** What was found to speak for and against it when it was put forward; null when that could not be found in time. */
  readonly why: CutReasons | null;
}

/** A rewrite that one player asked the other to agree to, with everything that was said to it. */
export interface RewriteProposalRecord extends AskedOfTheOther {
  readonly kind: "rewrite";
  readonly terms: RewriteTerms;
}

export const proposalParts = {
  answers: { orderBy: [{ at: "asc" }, { id: "asc" }] },
  editions: { select: { edition: { select: { number: true } } }, orderBy: { edition: { number: "asc" } } },
} as const satisfies Prisma.ProposalInclude;

export type ProposalRow = Prisma.ProposalGetPayload<{ include: typeof proposalParts }>;

/** @throws Error for a proposal of another kind. */
export function toProposalRecord(row: ProposalRow): ProposalRecord {
  return {
    ...toAsked(row),
    kind: "cut",
    terms: cutTermsSchema.parse(row.terms),
    why: row.why === null ? null : cutReasonsSchema.parse(row.why),
  };
}

/** @throws Error for a proposal of another kind. */
export function toRewriteProposalRecord(row: ProposalRow): RewriteProposalRecord {
  return { ...toAsked(row), kind: "rewrite", terms: rewriteTermsSchema.parse(row.terms) };
}

export function toEitherRecord(row: ProposalRow): ProposalRecord | RewriteProposalRecord {
  switch (row.kind) {
    case "cut":
      return toProposalRecord(row);
    case "rewrite":
      return toRewriteProposalRecord(row);
  }
}

function toAsked(row: ProposalRow): AskedOfTheOther {
  const { id, number, termsHash, reason, state, proposedById, createdAt, supersedesId } = row;
  return {
    ...{ id, number, termsHash, reason, state, createdAt },
    proposedBy: proposedById,
    answers: row.answers.map(toAnswerRecord),
    supersedes: supersedesId,
    frozenInEditions: row.editions.map(({ edition }) => edition.number),
  };
}

export function toAnswerRecord({
  userId,
  answer,
  reason,
  termsHash,
  at,
}: ProposalRow["answers"][number]): AnswerRecord {
  return { userId, answer, reason, termsHash, at };
}
