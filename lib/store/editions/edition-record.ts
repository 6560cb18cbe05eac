import type { Prisma } from "@/generated/prisma/client";
import { type EditionContent, readEditionContent } from "@/lib/edition/edition-content";
import { hashTerms, hashText } from "@/lib/edition/hash-terms";
import type { MemberRole } from "../who-may";

/** Who agreed to an edition, under the name and role they had then. */
export interface EditionApprovalRecord {
  readonly userId: string;
  readonly name: string;
  readonly role: MemberRole;
  readonly at: Date;
}

/** A numbered, frozen, agreed version of a piece. */
export interface EditionRecord {
  readonly number: number;
  readonly content: EditionContent;
  /** The number on screen of each cut of the content, in the same order. */
  readonly cutNumbers: readonly number[];
  /** SHA-256 (hex) of the canonical content: what both players agreed to. */
  readonly hash: string;
  /** Hash of the edition before; null for the first. */
  readonly previousHash: string | null;
  readonly frozenAt: Date;
  /** Of the engraver it was frozen under; null in editions from before this was kept. */
  readonly rendererVersion: string | null;
  readonly approvals: readonly EditionApprovalRecord[];
}

export const editionParts = {
  approvals: { orderBy: { at: "asc" } },
  proposals: { select: { proposal: { select: { number: true, termsHash: true } } } },
} as const satisfies Prisma.EditionInclude;

type EditionRow = Prisma.EditionGetPayload<{ include: typeof editionParts }>;

/** @throws Error if the stored text is not the one that was hashed: then the database was changed by hand. */
export function toEditionRecord(row: EditionRow): EditionRecord {
  if (hashText(row.content) !== row.hash) throw new Error(`edition ${row.id} is not what was agreed to`);
  const { number, hash, previousHash, frozenAt, rendererVersion } = row;
  const content = readEditionContent(row.content);
  const numbers = new Map(row.proposals.map(({ proposal }) => [proposal.termsHash, proposal.number]));
  return {
    ...{ number, hash, previousHash, frozenAt, rendererVersion, content },
    cutNumbers: content.cuts.map((cut, index) => numbers.get(hashTerms(cut)) ?? index + 1),
    approvals: row.approvals.map(({ userId, name, role, at }) => ({ userId, name, role, at })),
  };
}
