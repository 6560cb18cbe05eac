import { z } from "zod";
import { failure, type Result, success } from "@/lib/score/result";
import { cleanLine, cleanText } from "../clean-text";
import { now } from "../clock";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { type CueHintRecord, cueHintParts, toCueHintRecord } from "./cue-hint-record";

/** Every wording is kept; a piece with more than this was not written by hand. */
const mostHints = 2_000;

const setHintSchema = z.object({
  instrument: z.string().max(60).transform(cleanLine).pipe(z.string().min(1, "Say which instrument.")),
  text: z.string().max(1_000, "A hint has at most 1,000 letters.").transform(cleanText),
});

/** Writes the duo's own words for an instrument; empty ones go back to the usual. Every earlier wording stays on record. */
export async function setCueHint(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<CueHintRecord, StoreProblem>> {
  const asked = parseInput(setHintSchema, input);
  if (!asked.ok) return asked;
  const { instrument, text } = asked.value;
  return inPiece(viewer, pieceId, "set-hints", async (work) => {
    const { tx } = work;
    const [last] = await tx.cueHint.findMany({
      where: { pieceId, instrument },
      orderBy: [{ at: "desc" }, { id: "desc" }],
      take: 1,
      include: cueHintParts,
    });
    if (last?.text === text) return success(toCueHintRecord(last));
    if ((await tx.cueHint.count({ where: { pieceId } })) >= mostHints)
      return failure({ kind: "conflict", sentence: "There are too many wordings here to keep another." });
    const row = await tx.cueHint.create({
      data: { pieceId, instrument, text, authorId: viewer.userId, at: now() },
      include: cueHintParts,
    });
    await noteChange(work, { what: "hint written", about: { instrument }, change: "hints" });
    return success(toCueHintRecord(row));
  });
}
