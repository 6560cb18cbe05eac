import { z } from "zod";
import { failure, type Result, success } from "@/lib/score/result";
import { cleanLine } from "../clean-text";
import { now } from "../clock";
import { inPiece, noteChange } from "../in-piece";
import { notify } from "../notify";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

const deleteSchema = z.object({ title: z.string().max(1_000) });

/**
 * Deletes a piece for everybody, until one of its players brings it back within 30 days. It is in no list any more, no use
 * case finds it, its room is closed, and whoever is in it is sent away. Nothing of it is lost meanwhile.
 *
 * @param input `title`: that of the piece, written by hand, so that it is the one that is meant.
 */
export async function deletePiece(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(deleteSchema, input);
  if (!asked.ok) return asked;
  return inPiece(viewer, pieceId, "delete-piece", async (work) => {
    const { tx } = work;
    const { title, members } = await tx.piece.findUniqueOrThrow({
      where: { id: pieceId },
      select: { title: true, members: { where: { removedAt: null }, select: { userId: true } } },
    });
    if (foldTitle(asked.value.title) !== foldTitle(title)) return failure(otherTitle);
    await tx.piece.update({
      where: { id: pieceId },
      data: { deletedAt: now(), deletedById: viewer.userId },
    });
    await noteChange(work, { what: "piece deleted", about: {}, change: "settings" });
    for (const { userId } of members) await notify(tx, "member_removed", { pieceId, userId });
    return success(null);
  });
}

const otherTitle: StoreProblem = {
  kind: "invalid-input",
  sentence: "This is not the title of the piece. Nothing was deleted.",
};

const foldTitle = (title: string) => cleanLine(title).toLocaleLowerCase();
