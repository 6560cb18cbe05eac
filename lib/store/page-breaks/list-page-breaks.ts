import { type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { parseInput } from "../parse-input";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { type PageBreakRecord, pagesSchema } from "./page-break-record";

/** The pinned page breaks of one reader's pages on one paper, in the order of the bars. */
export async function listPageBreaks(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<PageBreakRecord[], StoreProblem>> {
  const asked = parseInput(pagesSchema, input);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const { reader, paper, sourceHash } = asked.value;
  const rows = await database().pageBreak.findMany({
    where: { pieceId, reader, paper, sourceHash, removedAt: null },
    orderBy: { barIndex: "asc" },
    include: { pinnedBy: { select: { name: true } } },
  });
  return success(
    rows.map(({ barIndex, pinnedBy, createdAt }) => ({ barIndex, pinnedBy: pinnedBy.name, at: createdAt })),
  );
}
