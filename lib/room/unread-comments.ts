import type { Comment } from "./comment";

/**
 * The comments that a person has not had on their screen yet, in the given order. One's own are never unread, nor
 * are deleted ones.
 *
 * @param me user id of the person.
 */
export function unreadComments(
  comments: readonly Comment[],
  seenIds: ReadonlySet<string>,
  me: string,
): Comment[] {
  return comments.filter(
    ({ id, authorId, deletedAt }) => authorId !== me && deletedAt === null && !seenIds.has(id),
  );
}
