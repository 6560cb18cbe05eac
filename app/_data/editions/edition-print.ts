import { type Result, success } from "@/lib/score/result";
import type { EditionPrint } from "@/lib/store/editions/print-input-of";
import { readEdition } from "@/lib/store/editions/read-edition";
import type { PieceRecord } from "@/lib/store/pieces/piece-record";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { readSourceBytes } from "@/lib/store/pieces/read-source-bytes";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";

/** An edition for somebody who belongs to the piece. */
export async function readEditionPrint(
  viewer: Viewer,
  pieceId: string,
  number: number,
): Promise<Result<EditionPrint & { readonly piece: PieceRecord }, StoreProblem>> {
  const piece = await readPiece(viewer, pieceId);
  if (!piece.ok) return piece;
  const edition = await readEdition(viewer, pieceId, number);
  if (!edition.ok) return edition;
  const source = await readSourceBytes(viewer, pieceId, { hash: edition.value.content.sourceHash });
  if (!source.ok) return source;
  return success({ piece: piece.value, edition: edition.value, source: source.value.bytes });
}
