import { type EditionContent, readEditionContent } from "@/lib/edition/edition-content";
import { timeEdition } from "@/lib/edition/time-edition";
import { failure, type Result, success } from "@/lib/score/result";
import type { RunningTime } from "@/lib/score/running-time";
import type { Score } from "@/lib/score/score";
import { type Database, database } from "../database";
import { readSourceScore } from "../pieces/score-of-source";
import type { StoreProblem } from "../store-problem";

/** A frozen edition with the music it is of. */
export interface EditionInScore {
  readonly id: string;
  readonly number: number;
  readonly content: EditionContent;
  readonly score: Score;
}

/** An edition of a piece and its music, whoever asks: callers ask for membership first. */
export async function openEdition(
  pieceId: string,
  number: number,
  db: Database = database(),
): Promise<Result<EditionInScore, StoreProblem>> {
  const edition = await db.edition.findUnique({ where: { pieceId_number: { pieceId, number } } });
  if (!edition) return failure(noSuchEdition(number));
  const content = readEditionContent(edition.content);
  const source = await db.source.findFirstOrThrow({ where: { pieceId, hash: content.sourceHash } });
  const { score } = await readSourceScore(source, content.partRoles, db);
  return success({ id: edition.id, number, content, score });
}

/** How long an edition runs by the tempi that were frozen with it. */
export function planOf({ score, content }: EditionInScore): RunningTime {
  return timeEdition(score, content);
}

function noSuchEdition(number: number): StoreProblem {
  return { kind: "invalid-input", sentence: `There is no edition № ${number} of this piece.` };
}
