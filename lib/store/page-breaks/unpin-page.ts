import { type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { findSourceOfEdition, pageBreakSchema } from "./page-break-record";

/** Takes the pin off a bar. Its row stays, with the time; a bar without a pin is left as it is. */
export async function unpinPage(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(pageBreakSchema, input);
  if (!asked.ok) return asked;
  return inPiece(viewer, pieceId, "set-pages", async (work) => {
    const { editionNumber, ...pages } = asked.value;
    const sourceHash = await findSourceOfEdition(work, editionNumber);
    if (!sourceHash.ok) return sourceHash;
    const { count } = await work.tx.pageBreak.updateMany({
      where: { ...pages, sourceHash: sourceHash.value, pieceId, removedAt: null },
      data: { removedAt: now() },
    });
    if (count > 0)
      await noteChange(work, { what: "page break taken off", about: asked.value, change: "settings" });
    return success(null);
  });
}
