import { z } from "zod";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

const revokeSchema = z.object({ readerLinkId: z.string().max(100) });

/** Makes a reader's link useless, from the next thing that is asked by it. */
export async function revokeReaderLink(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(revokeSchema, input);
  if (!asked.ok) return asked;
  const { readerLinkId } = asked.value;
  return inPiece(viewer, pieceId, "invite", async (work) => {
    const revoked = await work.tx.readerLink.updateMany({
      where: { id: readerLinkId, pieceId, revokedAt: null },
      data: { revokedAt: now(), revokedById: work.membership.userId },
    });
    if (revoked.count === 0) return failure({ kind: "not-found" });
    await noteChange(work, { what: "reader link revoked", about: { readerLinkId }, change: "editions" });
    return success(null);
  });
}
