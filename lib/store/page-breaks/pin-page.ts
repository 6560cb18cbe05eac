import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import { readSourceScore } from "../pieces/score-of-source";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { findSourceOfEdition, pageBreakSchema } from "./page-break-record";

/** Nobody pins more pages than this; each one is a page. */
const mostPins = 200;

/** Lets a bar begin a page. What is pinned already stays as it is. */
export async function pinPage(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(pageBreakSchema, input);
  if (!asked.ok) return asked;
  const { barIndex, editionNumber, ...about } = asked.value;
  return inPiece(viewer, pieceId, "set-pages", async (work) => {
    const { tx } = work;
    const sourceHash = await findSourceOfEdition(work, editionNumber);
    if (!sourceHash.ok) return sourceHash;
    const pages = { ...about, sourceHash: sourceHash.value };
    const source = await tx.source.findFirstOrThrow({ where: { pieceId, hash: pages.sourceHash } });
    const { score } = await readSourceScore(source, {});
    const bar = score.bars[barIndex];
    if (!bar)
      return failure(sayNo(`This file has ${score.bars.length} bars: there is nothing to pin there.`));
    const pinned = await tx.pageBreak.findMany({ where: { pieceId, ...pages, removedAt: null } });
    if (pinned.some((row) => row.barIndex === barIndex)) return success(null);
    if (pinned.length >= mostPins) return failure(sayNo(`At most ${mostPins} pages can be pinned.`));
    await tx.pageBreak.create({
      data: { ...pages, barIndex, pieceId, pinnedById: viewer.userId, createdAt: now() },
    });
    await noteChange(work, { what: "page break pinned", about: asked.value, change: "settings" });
    return success(null);
  });
}

const sayNo = (sentence: string): StoreProblem => ({ kind: "invalid-input", sentence });
