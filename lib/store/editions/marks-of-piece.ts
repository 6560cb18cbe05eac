import type { Prisma } from "@/generated/prisma/client";
import type { Marks } from "@/lib/edition/edition-content";
import { gatherMarks } from "@/lib/edition/gather-marks";
import { hashMarks } from "@/lib/room/hash-marks";
import type { StandingMarks } from "@/lib/room/standing-marks";
import { cleanLine, cleanText } from "../clean-text";
import { type MainSource, readSourceScore } from "../pieces/score-of-source";
import { readMarksOfRoom } from "../room/read-standing-marks";
import { findAgreedRewrites } from "./agreed-rewrites";

export interface MarksOfPiece {
  readonly marks: Marks;
  /** `hashMarks` of the room they were read from. */
  readonly marksHash: string;
}

/**
 * Breaths, cues and printed comments as they stand in the room's stored log, with the agreed rewrites.
 *
 * @param tx one that sees one picture: a repeatable read, or one that holds the piece.
 */
export async function findMarksOfPiece(
  tx: Prisma.TransactionClient,
  pieceId: string,
  source: MainSource,
): Promise<MarksOfPiece> {
  const standing = await readMarksOfRoom(tx, pieceId);
  const marksHash = hashMarks(standing);
  const rewrites = [...(await findAgreedRewrites(pieceId, tx))];
  if (isEmpty(standing)) return { marks: { breaths: [], cues: [], remarks: [], rewrites }, marksHash };
  const { score } = await readSourceScore(source, source.partRoles, tx);
  const names = await readNames(tx, standing);
  const gathered = gatherMarks(score, {
    breaths: standing.breaths,
    cues: standing.cues.map(({ at, text }) => ({ at, text: cleanLine(text) })),
    remarks: standing.remarks.map(({ from, to, text, authorId }) => ({
      ...{ from, to, text: cleanText(text), by: names.get(authorId) ?? "" },
    })),
  });
  return { marks: { ...gathered, rewrites }, marksHash };
}

function isEmpty({ breaths, cues, remarks }: StandingMarks): boolean {
  return [breaths, cues, remarks].every((list) => list.length === 0);
}

async function readNames(
  tx: Prisma.TransactionClient,
  { remarks }: StandingMarks,
): Promise<ReadonlyMap<string, string>> {
  const ids = [...new Set(remarks.map(({ authorId }) => authorId))];
  const users = await tx.user.findMany({ where: { id: { in: ids } }, select: { id: true, name: true } });
  return new Map(users.map(({ id, name }) => [id, name]));
}
