import { z } from "zod";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

const revokeSchema = z.object({ invitationId: z.string().max(100) });

/** Makes an invitation's link useless. */
export async function revokeInvitation(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(revokeSchema, input);
  if (!asked.ok) return asked;
  const { invitationId } = asked.value;
  return inPiece(viewer, pieceId, "invite", async (work) => {
    const revoked = await work.tx.invitation.updateMany({
      where: { id: invitationId, pieceId, acceptedAt: null, revokedAt: null },
      data: { revokedAt: now() },
    });
    if (revoked.count === 0) return failure({ kind: "not-found" });
    await noteChange(work, { what: "invitation revoked", about: { invitationId }, change: "members" });
    return success(null);
  });
}
