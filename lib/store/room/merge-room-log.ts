import type { Prisma } from "@/generated/prisma/client";
import { applyInTurns } from "@/lib/room/apply-in-turns";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { findEpochStart, readEntries } from "./read-room-log";

/** The document that the rows of one epoch make, and the last of them. */
export interface MergedLog {
  readonly doc: ReturnType<typeof openRoomDoc>;
  readonly sequence: number;
}

/** So many rows are in memory at once. */
const pageLength = 1_000;

/**
 * Builds the document of an epoch from its rows alone, all that are stored when the last page is read.
 *
 * @throws Error if a row is missing.
 */
export async function mergeRoomLog(
  tx: Prisma.TransactionClient,
  pieceId: string,
  epoch: number,
): Promise<MergedLog> {
  const doc = openRoomDoc();
  const start = await findEpochStart(tx, pieceId, epoch);
  let sequence = start;
  for (let isLast = false; !isLast; ) {
    const page = await readEntries(tx, pieceId, epoch, { after: sequence, most: pageLength });
    for (const entry of page) {
      sequence += 1;
      if (entry.sequence !== sequence) throw new Error(`update ${sequence} is missing in the log`);
    }
    await applyInTurns(
      doc,
      page.map(({ update }) => update),
    );
    isLast = page.length < pageLength;
  }
  if (epoch > 1 && sequence === start) throw new Error("the epoch has no first entry");
  return { doc, sequence };
}
