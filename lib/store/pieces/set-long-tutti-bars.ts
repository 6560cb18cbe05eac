import { z } from "zod";
import { type Result, success } from "@/lib/score/result";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

const setLongTuttiBarsSchema = z.object({
  longTuttiBars: z
    .int("A number of bars is a whole number.")
    .min(1, "A long tutti has more than one bar at least.")
    .max(500, "No tutti has more than 500 bars."),
});

/** Sets how many bars a tutti may have before it counts as long. It changes what is pointed out, not what is played. */
export async function setLongTuttiBars(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(setLongTuttiBarsSchema, input);
  if (!asked.ok) return asked;
  const { longTuttiBars } = asked.value;
  return inPiece(viewer, pieceId, "set-limit", async (work) => {
    await work.tx.piece.update({ where: { id: pieceId }, data: { longTuttiBars } });
    await noteChange(work, { what: "long tutti set", about: { longTuttiBars }, change: "settings" });
    return success(null);
  });
}
