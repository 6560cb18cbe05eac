import { z } from "zod";
import { hashSchema } from "@/lib/edition/cut-terms";
import { printPapers } from "@/lib/engrave/pdf/print-options";

/** For which pages a break is meant: a reader's, on one paper, of one source. */
export const pagesSchema = z.object({
  reader: z.enum(["pianist", "soloist"]),
  paper: z.enum(printPapers),
  sourceHash: hashSchema,
});

export type PagesOf = z.infer<typeof pagesSchema>;

/** The bar that is to begin a page, by its index in the source. */
export const pageBreakSchema = pagesSchema.extend({ barIndex: z.int().min(1).max(100_000) });

/** A bar that begins a page because a player decided so. */
export interface PageBreakRecord {
  readonly barIndex: number;
  readonly pinnedBy: string;
  readonly at: Date;
}
