import { z } from "zod";
import { type ActionResult, signedOut, toActionResult } from "@/app/_data/action-result";
import { readViewer } from "@/app/_data/viewer";
import type { Result } from "@/lib/score/result";
import { parseInput } from "@/lib/store/parse-input";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";

const onPieceSchema = z.object({ pieceId: z.string().min(1).max(100) });

/** A use case of one piece: it checks who may do it and what `input` is by itself. */
export type PieceUseCase<T> = (
  viewer: Viewer,
  pieceId: string,
  input: unknown,
) => Promise<Result<T, StoreProblem>>;

/**
 * What every action on a piece does: who asks comes from the session, which piece from the input, and the use
 * case decides the rest.
 */
export async function onPiece<T>(input: unknown, decide: PieceUseCase<T>): Promise<ActionResult<T>> {
  const viewer = await readViewer();
  if (!viewer) return signedOut;
  const place = parseInput(onPieceSchema, input);
  return toActionResult(place.ok ? await decide(viewer, place.value.pieceId, input) : place);
}
