import { z } from "zod";
import { type Result, success } from "@/lib/score/result";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

export const limitSchema = z
  .int()
  .min(10, "A time limit is at least ten seconds.")
  .max(10 * 60 * 60, "A time limit is at most ten hours.")
  .nullable();

const setLimitSchema = z.object({ limitSeconds: limitSchema });

/** Sets the time that the piece may take on the occasion it is prepared for; null when the clock does not matter. */
export async function setLimit(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(setLimitSchema, input);
  if (!asked.ok) return asked;
  const { limitSeconds } = asked.value;
  return inPiece(viewer, pieceId, "set-limit", async (work) => {
    await work.tx.piece.update({ where: { id: pieceId }, data: { limitSeconds } });
    await noteChange(work, { what: "limit set", about: { limitSeconds }, change: "settings" });
    return success(null);
  });
}
