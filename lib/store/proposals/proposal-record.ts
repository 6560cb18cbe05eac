import type { Prisma } from "@/generated/prisma/client";
import { type CutReasons, cutReasonsSchema } from "@/lib/edition/cut-reasons";
import { type CutTerms, cutTermsSchema } from "@/lib/edition/cut-terms";

export type ProposalState = "open" | "agreed" | "declined" | "withdrawn" | "superseded" | "reopened";

export interface AnswerRecord {
  readonly userId: string;
  readonly answer: "agree" | "decline" | "counter" | "withdraw" | "reopen";
  readonly reason: string;
  /** The terms it was said to. */
  readonly termsHash: string;
  readonly at: Date;
}

/** A cut that one player asked the other to agree to, with everything that was said to it. */
export interface ProposalRecord {
  readonly id: string;
  /** Shown on screen; a counter-proposal keeps the number of what it replaces. */
  readonly number: number;
  readonly terms: CutTerms;
  readonly termsHash: string;
  readonly reason: string;
  /** What was found to speak for and against it when it was put forward; null when that could not be found in time. */
  readonly why: CutReasons | null;
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

export const proposalParts = {
  answers: { orderBy: [{ at: "asc" }, { id: "asc" }] },
  editions: { select: { edition: { select: { number: true } } }, orderBy: { edition: { number: "asc" } } },
} as const satisfies Prisma.ProposalInclude;

export type ProposalRow = Prisma.ProposalGetPayload<{ include: typeof proposalParts }>;

export function toProposalRecord(row: ProposalRow): ProposalRecord {
  const { id, number, termsHash, reason, state, proposedById, createdAt, supersedesId } = row;
  return {
    ...{ id, number, termsHash, reason, state, createdAt },
    terms: cutTermsSchema.parse(row.terms),
    why: row.why === null ? null : cutReasonsSchema.parse(row.why),
    proposedBy: proposedById,
    answers: row.answers.map(toAnswerRecord),
    supersedes: supersedesId,
    frozenInEditions: row.editions.map(({ edition }) => edition.number),
  };
}

function toAnswerRecord({
  userId,
  answer,
  reason,
  termsHash,
  at,
}: ProposalRow["answers"][number]): AnswerRecord {
  return { userId, answer, reason, termsHash, at };
}
