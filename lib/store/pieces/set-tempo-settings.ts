import { z } from "zod";
import { canonicalJson } from "@/lib/edition/canonical-json";
import { findTempoFault } from "@/lib/edition/find-tempo-fault";
import { sortTempoTerms, tempoTermsSchema } from "@/lib/edition/tempo-terms";
import { failure, type Result, success } from "@/lib/score/result";
import { endApprovals } from "../editions/end-approvals";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { readPieceScore } from "./read-piece-score";

const setTempoSettingsSchema = z.object({ settings: tempoTermsSchema });

/**
 * Sets the duo's own tempi, allowances and timings. They are content of an edition, so whoever had agreed to
 * freeze it is asked again.
 */
export async function setTempoSettings(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(setTempoSettingsSchema, input);
  if (!asked.ok) return asked;
  const read = await readPieceScore(viewer, pieceId);
  if (!read.ok) return read;
  const tempo = sortTempoTerms(asked.value.settings);
  const fault = findTempoFault(read.value.score, tempo);
  if (fault !== null) return failure({ kind: "invalid-input", sentence: fault });
  return inPiece(viewer, pieceId, "set-tempo", async (work) => {
    const stored = await work.tx.piece.findUniqueOrThrow({ where: { id: pieceId }, select: { tempo: true } });
    if (canonicalJson(tempoTermsSchema.parse(stored.tempo)) === canonicalJson(tempo)) return success(null);
    await work.tx.piece.update({ where: { id: pieceId }, data: { tempo } });
    await endApprovals(work.tx, pieceId);
    await noteChange(work, { what: "tempi set", about: { tempo }, change: "settings" });
    return success(null);
  });
}
