import type { Prisma } from "@/generated/prisma/client";
import { database } from "../database";
import { type EditionRecord, editionParts, toEditionRecord } from "../editions/edition-record";

/** An edition with what its pages say of the piece. */
export interface EditionOfPiece {
  readonly pieceId: string;
  readonly editionId: string;
  readonly piece: {
    readonly title: string;
    readonly movement: string | null;
    readonly composer: string | null;
    readonly soloInstrument: string | null;
  };
  readonly edition: EditionRecord;
}

/** One edition; null when there is none. For the store: whoever asks has been checked. */
export async function findEdition(where: Prisma.EditionWhereUniqueInput): Promise<EditionOfPiece | null> {
  const row = await database().edition.findUnique({
    where,
    include: {
      ...editionParts,
      piece: { select: { title: true, movement: true, composer: true, soloInstrument: true } },
    },
  });
  if (!row) return null;
  return { pieceId: row.pieceId, editionId: row.id, piece: row.piece, edition: toEditionRecord(row) };
}
