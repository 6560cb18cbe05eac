import { z } from "zod";
import { readPieceOnce } from "@/app/_data/read-desk";
import { type Result, success } from "@/lib/score/result";
import { listEditions } from "@/lib/store/editions/list-editions";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";
import { may } from "@/lib/store/who-may";

/** What the screen of printing shows one member. */
export interface PrintView {
  readonly pieceId: string;
  readonly title: string;
  /** All editions by number, the newest first. */
  readonly editions: readonly number[];
  /** The one that is printed: as asked for, else the newest; null when there is none. */
  readonly edition: number | null;
  readonly soloInstrument: string | null;
  readonly mayPin: boolean;
  /** When the piece changed last: pins of the other player may have. */
  readonly changedAt: string;
}

const askedSchema = z.object({ edition: z.coerce.number().int().nullable().catch(null) });

/** @param asked as the address has it; an edition that there is not counts as not asked. */
export async function readPrint(
  viewer: Viewer,
  pieceId: string,
  asked: unknown,
): Promise<Result<PrintView, StoreProblem>> {
  const piece = await readPieceOnce(viewer.userId, pieceId);
  if (!piece.ok) return piece;
  const listed = await listEditions(viewer, pieceId);
  if (!listed.ok) return listed;
  const editions = listed.value.map(({ number }) => number);
  const { edition } = askedSchema.parse(asked);
  const { title, soloInstrument, myRole, changedAt } = piece.value;
  return success({
    ...{ pieceId, title, soloInstrument, editions },
    edition: edition !== null && editions.includes(edition) ? edition : (editions[0] ?? null),
    mayPin: may(myRole, "set-pages"),
    changedAt: changedAt.toISOString(),
  });
}
