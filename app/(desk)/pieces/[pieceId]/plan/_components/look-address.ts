import type { DeskCut } from "@/app/_data/desk/desk";
import type { CutEnds } from "../../_cuts/cut-questions";
import { writeEnds } from "../../_cuts/ends-in-address";

/** Where the desk shows a cut: its card when it is proposed, else its bars on strip and score. */
export function lookAddress(pieceId: string, ends: CutEnds, standing: Pick<DeskCut, "id"> | null): string {
  const desk = `/pieces/${pieceId}`;
  return standing ? `${desk}?cut=${standing.id}` : `${desk}?look=${writeEnds([ends])}`;
}
