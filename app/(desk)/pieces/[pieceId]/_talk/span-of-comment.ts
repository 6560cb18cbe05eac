import type { BarSpan } from "@/app/_ui/score/mark-bars";
import type { Comment } from "@/lib/room/comment";

/** The bars a comment is about; null for one about a proposal. A span that ends on a bar line ends with the bar before. */
export function spanOfComment({ about }: Pick<Comment, "about">): BarSpan | null {
  if (about.kind !== "span") return null;
  const { from, to } = about;
  const endsOnLine = to.offset.num === 0 && to.barIndex > from.barIndex;
  return { firstBar: from.barIndex, lastBar: endsOnLine ? to.barIndex - 1 : to.barIndex };
}
