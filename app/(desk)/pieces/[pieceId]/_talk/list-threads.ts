import type { BarSpan } from "@/app/_ui/score/mark-bars";
import type { Comment } from "@/lib/room/comment";
import { spanOfComment } from "./span-of-comment";

/** A comment about bars with what answers it. */
export interface SpanThread {
  readonly comment: Comment;
  readonly span: BarSpan;
  readonly replies: readonly Comment[];
}

/** The threads about bars in the order of the page. One whose first words were deleted stays while answers stand in it. */
export function listThreads(comments: readonly Comment[], myId: string): SpanThread[] {
  return comments
    .flatMap((comment): SpanThread[] => {
      const span = comment.replyTo === null ? spanOfComment(comment) : null;
      if (!span) return [];
      const replies = comments.filter(({ replyTo }) => replyTo === comment.id);
      const isShown =
        comment.deletedAt === null ||
        comment.authorId === myId ||
        replies.some(({ deletedAt, authorId }) => deletedAt === null || authorId === myId);
      return isShown ? [{ comment, span, replies }] : [];
    })
    .sort(
      (a, b) => a.span.firstBar - b.span.firstBar || (a.comment.createdAt < b.comment.createdAt ? -1 : 1),
    );
}
