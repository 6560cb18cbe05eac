import type { EditionContent } from "@/lib/edition/edition-content";
import { readEditionContent } from "@/lib/edition/edition-content";
import { type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

/** The edition that two pieces of one music both began with. */
export interface CommonStart {
  readonly pieceId: string;
  readonly number: number;
  readonly content: EditionContent;
}

/**
 * What two pieces of one music have in common from their beginning: the edition that one of them was branched from, when
 * it is the other's; of two branches of one piece the earlier of the editions they began with. Null for the print.
 *
 * @returns "not-found" when the viewer does not belong to both. An edition of a third piece, which the viewer does not
 * belong to, is not told: then it is the print.
 */
export async function readCommonStart(
  viewer: Viewer,
  pieceId: string,
  otherId: string,
): Promise<Result<CommonStart | null, StoreProblem>> {
  for (const id of [pieceId, otherId]) {
    const membership = await readMembership(viewer, id);
    if (!membership.ok) return membership;
  }
  const [mine, theirs] = await Promise.all([findStart(pieceId), findStart(otherId)]);
  const start = chooseStart(pieceId, otherId, mine, theirs);
  if (start === null) return success(null);
  const isMember = (await readMembership(viewer, start.pieceId)).ok;
  if (!isMember) return success(null);
  const { pieceId: of, number, content } = start;
  return success({ pieceId: of, number, content: readEditionContent(content) });
}

interface Start {
  readonly pieceId: string;
  readonly number: number;
  readonly content: string;
}

async function findStart(pieceId: string): Promise<Start | null> {
  const { branchStart } = await database().piece.findUniqueOrThrow({
    where: { id: pieceId },
    select: { branchStart: { select: { pieceId: true, number: true, content: true } } },
  });
  return branchStart;
}

function chooseStart(
  pieceId: string,
  otherId: string,
  mine: Start | null,
  theirs: Start | null,
): Start | null {
  if (mine?.pieceId === otherId) return mine;
  if (theirs?.pieceId === pieceId) return theirs;
  if (!mine || !theirs || mine.pieceId !== theirs.pieceId) return null;
  return mine.number <= theirs.number ? mine : theirs;
}
