import { z } from "zod";
import type { PracticeRecord } from "@/lib/practice/practice-entry";
import { failure, type Result, success } from "@/lib/score/result";
import { inPiece } from "../in-piece";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { toPracticeRecord } from "./practice-row";

const namedSchema = z.object({ entryId: z.string().max(100) });

/** Takes one of the viewer's entries off the log or puts it back; what is so already stays. */
export async function changeEntry(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
  removedAt: Date | null,
): Promise<Result<PracticeRecord, StoreProblem>> {
  const asked = parseInput(namedSchema, input);
  if (!asked.ok) return asked;
  return inPiece(viewer, pieceId, "practise", async ({ tx }) => {
    const own = { id: asked.value.entryId, pieceId, userId: viewer.userId };
    const row = await tx.practiceEntry.findFirst({ where: own });
    if (!row) return failure({ kind: "not-found" });
    if ((row.removedAt === null) === (removedAt === null)) return success(toPracticeRecord(row));
    return success(toPracticeRecord(await tx.practiceEntry.update({ where: own, data: { removedAt } })));
  });
}
