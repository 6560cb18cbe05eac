import type { Position } from "@/lib/score/position";

/** What a comment is about: a span of the piece, or a proposal. */
export type CommentSubject =
  | { readonly kind: "span"; readonly from: Position; readonly to: Position }
  | { readonly kind: "proposal"; readonly proposalId: string };

/** A comment as it is shown. */
export interface Comment {
  readonly id: string;
  readonly authorId: string;
  /** ISO 8601, UTC, by the writer's clock. */
  readonly createdAt: string;
  readonly text: string;
  readonly about: CommentSubject;
  readonly replyTo: string | null;
  /** Who resolved it; null while it is open. */
  readonly resolvedBy: string | null;
  /** Who opened it again after it was resolved; null while it is resolved or never was. */
  readonly reopenedBy: string | null;
  readonly deletedAt: string | null;
  /** When its text was last changed; null when never. */
  readonly editedAt: string | null;
  /** Whether its author wants it printed in the edition. */
  readonly print: boolean;
}
