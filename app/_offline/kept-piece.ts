import * as z from "zod";

const keptPieceSchema = z.object({
  /** Null for what belongs to no piece: the lists, and programmes. */
  pieceId: z.string().nullable(),
  /** The edition of it that is read page by page; null for the piece on the desk. */
  edition: z.int().nullable().default(null),
  /** The programme that it is the page of; null for everything else. */
  programme: z.string().nullable().default(null),
  openedAt: z.iso.datetime(),
  /** Everything it takes to show it, with its size in bytes. Different pieces share most files. */
  parts: z.array(z.object({ address: z.string(), bytes: z.int().min(0) })),
});

/** What is kept of one piece: on the desk, or of one of its editions. */
export type KeptPiece = z.infer<typeof keptPieceSchema>;

export const keptListSchema = z.object({ userId: z.string(), pieces: z.array(keptPieceSchema) });

/** Everything that is kept, all of one person. */
export type KeptList = z.infer<typeof keptListSchema>;
