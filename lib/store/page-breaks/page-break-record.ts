import { z } from "zod";
import { hashSchema } from "@/lib/edition/cut-terms";
import { readEditionContent } from "@/lib/edition/edition-content";
import { printPapers } from "@/lib/engrave/pdf/print-options";
import { failure, type Result, success } from "@/lib/score/result";
import type { PieceChangeWork } from "../in-piece";
import type { StoreProblem } from "../store-problem";

const pages = {
  reader: z.enum(["pianist", "soloist"]),
  /** The shape of the page it is meant for. */
  paper: z.enum(printPapers),
};

/** For which pages breaks are meant: a reader's, on one paper, of one source. */
export const pagesSchema = z.object({ ...pages, sourceHash: hashSchema });

/** The bar that is to begin a page, by its index in the source of an edition. */
export const pageBreakSchema = z.object({
  ...pages,
  editionNumber: z.int().min(1).max(100_000),
  barIndex: z.int().min(1).max(100_000),
});

/** A bar that begins a page because a player decided so. */
export interface PageBreakRecord {
  readonly barIndex: number;
  readonly pinnedBy: string;
  readonly at: Date;
}

/** The source on whose bars the pages of an edition stand. */
export async function findSourceOfEdition(
  { tx, membership: { pieceId } }: PieceChangeWork,
  number: number,
): Promise<Result<string, StoreProblem>> {
  const row = await tx.edition.findUnique({ where: { pieceId_number: { pieceId, number } } });
  const sentence = `There is no edition № ${number} of this piece.`;
  return row
    ? success(readEditionContent(row.content).sourceHash)
    : failure({ kind: "invalid-input", sentence });
}
