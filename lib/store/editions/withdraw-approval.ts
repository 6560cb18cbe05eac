import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { inPiece, noteChange } from "../in-piece";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

/** Takes one's yes to freezing back, as long as the other player's is missing. */
export async function withdrawApproval(viewer: Viewer, pieceId: string): Promise<Result<null, StoreProblem>> {
  return inPiece(viewer, pieceId, "approve", async (work) => {
    const ended = await work.tx.approval.updateMany({
      where: { pieceId, userId: viewer.userId, endedAt: null },
      data: { endedAt: now() },
    });
    if (ended.count === 0) return failure(nothingToTakeBack);
    await noteChange(work, { what: "approval withdrawn", about: {}, change: "approvals" });
    return success(null);
  });
}

const nothingToTakeBack: StoreProblem = {
  kind: "conflict",
  sentence: "There is no yes of yours to take back: it was not given, or the edition is frozen already.",
};
