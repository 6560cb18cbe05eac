import { z } from "zod";
import { Prisma } from "@/generated/prisma/client";
import { breathPreferencesSchema } from "@/lib/breath/breath-preferences-schema";
import { type Result, success } from "@/lib/score/result";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

const setBreathSchema = z.object({ preferences: breathPreferencesSchema.nullable() });

/**
 * Sets the numbers of the viewer's own breath in this piece; null goes back to those for the instrument. Only the
 * soloist has any, and nobody sets another's.
 */
export async function setBreathPreferences(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(setBreathSchema, input);
  if (!asked.ok) return asked;
  const { preferences } = asked.value;
  return inPiece(viewer, pieceId, "set-rests", async (work) => {
    await work.tx.member.update({
      where: { pieceId_userId: { pieceId, userId: viewer.userId } },
      data: { breath: preferences ?? Prisma.DbNull },
    });
    await noteChange(work, { what: "breath set", about: { preferences }, change: "rests" });
    return success(null);
  });
}
