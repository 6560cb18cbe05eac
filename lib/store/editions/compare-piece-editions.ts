import { nameCut } from "@/lib/cuts/name-cut";
import { namePosition } from "@/lib/cuts/name-position";
import { compareEditions } from "@/lib/edition/compare-editions";
import type { EditionDifference } from "@/lib/edition/edition-difference";
import { toTempoSettings } from "@/lib/edition/tempo-terms";
import { type Result, success } from "@/lib/score/result";
import { readTempoMap } from "@/lib/score/tempo-map";
import { readPieceScore } from "../pieces/read-piece-score";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { readEdition } from "./read-edition";
import { readWorkingEdition } from "./read-working-edition";

/** What changed in a piece from one edition to a later one, or to what stands now. */
export async function comparePieceEditions(
  viewer: Viewer,
  pieceId: string,
  earlier: number,
  later: number | "working",
): Promise<Result<EditionDifference[], StoreProblem>> {
  const read = await readPieceScore(viewer, pieceId);
  if (!read.ok) return read;
  const a = await readEdition(viewer, pieceId, earlier);
  if (!a.ok) return a;
  const b =
    later === "working"
      ? await readWorkingEdition(viewer, pieceId)
      : await readEdition(viewer, pieceId, later);
  if (!b.ok) return b;
  const { score } = read.value;
  const map = readTempoMap(score, toTempoSettings(b.value.content.tempo));
  const names = {
    cut: (span: Parameters<typeof nameCut>[1]) => nameCut(score, span),
    place: (position: Parameters<typeof namePosition>[1]) => namePosition(score, position),
  };
  return success(compareEditions(score, map, a.value.content, b.value.content, names));
}
