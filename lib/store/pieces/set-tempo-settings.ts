import { z } from "zod";
import { canonicalJson } from "@/lib/edition/canonical-json";
import { type PositionTerms, toPosition } from "@/lib/edition/position-terms";
import { sortTempoTerms, type TempoTerms, tempoTermsSchema } from "@/lib/edition/tempo-terms";
import { comparePositions } from "@/lib/score/position";
import { compareQuarters } from "@/lib/score/quarters";
import { failure, type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
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
  const fault = findFault(read.value.score, tempo);
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

/** What keeps these decisions from being carried out in this music; null when nothing does. */
function findFault(score: Score, tempo: TempoTerms): string | null {
  const places = [...tempo.tempi.map(({ at }) => at), ...tempo.timings.flatMap(({ from, to }) => [from, to])];
  const outside = places.find((place) => !isInside(score, place));
  if (outside)
    return `There is no place at bar ${outside.barIndex + 1} of the source, ${outside.offset} quarters in.`;
  const twice = tempo.tempi.find(({ at }, index) => isSamePlace(at, tempo.tempi[index + 1]?.at));
  if (twice) return `Two tempi stand at the same place in bar ${score.bars[twice.at.barIndex]?.label}.`;
  const empty = tempo.timings.find(({ from, to }) => comparePositions(toPosition(from), toPosition(to)) >= 0);
  if (empty)
    return `A timed section ends before it begins, in bar ${score.bars[empty.from.barIndex]?.label}.`;
  const crossing = tempo.timings.find(({ to }, index) => isAfter(to, tempo.timings[index + 1]?.from));
  if (crossing) return `Two timed sections overlap in bar ${score.bars[crossing.to.barIndex]?.label}.`;
  return null;
}

function isInside(score: Score, place: PositionTerms): boolean {
  const bar = score.bars[place.barIndex];
  return bar !== undefined && compareQuarters(toPosition(place).offset, bar.length) <= 0;
}

function isSamePlace(a: PositionTerms, b: PositionTerms | undefined): boolean {
  return b !== undefined && a.barIndex === b.barIndex && a.offset === b.offset;
}

function isAfter(a: PositionTerms, b: PositionTerms | undefined): boolean {
  return b !== undefined && comparePositions(toPosition(a), toPosition(b)) > 0;
}
