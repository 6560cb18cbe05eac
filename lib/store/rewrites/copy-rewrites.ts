import type { PieceChangeWork } from "../in-piece";
import { putRewriteForward } from "../proposals/put-forward";
import { noteRewrite } from "./record-deed";
import { findStandingRewrites, type StandingRewrite } from "./standing-rewrites";

/**
 * Takes the rewrites that stand in a piece over into a new piece of the same music, under their numbers. What is told there is
 * told here; what was agreed there is put forward here by the viewer, and the other player answers it. Private ones stay
 * where they are.
 *
 * @param work on the new piece.
 */
export async function copyRewrites(work: PieceChangeWork, fromPieceId: string): Promise<void> {
  for (const rewrite of await findStandingRewrites(fromPieceId, work.tx)) {
    const id = await copyVersion(work, rewrite);
    if (rewrite.sharing === "told") continue;
    const { terms, number, termsHash } = rewrite;
    const proposal = await putRewriteForward(work, { terms, number, reason: "", replaces: null });
    await work.tx.rewrite.update({ where: { id }, data: { proposalId: proposal.id } });
    await noteRewrite(work, "rewrite proposed", { id, number, termsHash }, proposal.id);
  }
}

async function copyVersion(
  { tx, membership }: PieceChangeWork,
  { id: copiedId, number, terms, termsHash, sharing }: StandingRewrite,
): Promise<string> {
  const { pieceId, userId } = membership;
  const { authorId, createdAt } = await tx.rewrite.findUniqueOrThrow({ where: { id: copiedId } });
  const isHere = await tx.member.count({ where: { pieceId, userId: authorId } });
  // Whoever has left is nobody in the new piece: there it is who took it along.
  const by = isHere > 0 ? authorId : userId;
  const { id } = await tx.rewrite.create({
    data: {
      ...{ pieceId, number, authorId: by, terms, termsHash, sharing, createdAt },
      events: { create: { userId: by, what: "kept", sharing, reason: "", at: createdAt } },
    },
  });
  return id;
}
