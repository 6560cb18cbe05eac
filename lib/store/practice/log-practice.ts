import { type PracticeEntry, type PracticeRecord, practiceEntrySchema } from "@/lib/practice/practice-entry";
import { failure, type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { inPiece, type PieceChangeWork } from "../in-piece";
import { parseInput } from "../parse-input";
import { readSourceScore } from "../pieces/score-of-source";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { toPracticeRecord } from "./practice-row";

/** More than anybody plays in years; what is looked up stays small. */
const mostEntries = 20_000;

/**
 * Keeps what the viewer has practised. The device names the entry, so that one sent twice is kept once. Nobody is told,
 * and no trail is kept of it: it is the pianist's own.
 */
export async function logPractice(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<PracticeRecord, StoreProblem>> {
  const asked = parseInput(practiceEntrySchema, entryIn(input));
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId, "practise");
  if (!membership.ok) return membership;
  const place = await checkBars(pieceId, asked.value);
  if (!place.ok) return place;
  return inPiece(viewer, pieceId, "practise", (work) => keepEntry(work, asked.value));
}

/** Beside the entry stands which piece it is of; what else comes along is nobody's. */
function entryIn(input: unknown): unknown {
  if (typeof input !== "object" || input === null) return input;
  const names = new Set(Object.keys(practiceEntrySchema.shape));
  return Object.fromEntries(Object.entries(input).filter(([name]) => names.has(name)));
}

async function checkBars(
  pieceId: string,
  { sourceHash, toBar }: PracticeEntry,
): Promise<Result<null, StoreProblem>> {
  const source = await database().source.findFirst({
    where: { pieceId, kind: "reduction", hash: sourceHash },
  });
  if (!source)
    return failure({
      kind: "stale-terms",
      sentence: "This was played from another file. Open the piece again.",
    });
  const { bars } = (await readSourceScore(source, {})).score;
  if (toBar < bars.length) return success(null);
  const sentence = `These bars are not in the piece, which has ${bars.length} bars.`;
  return failure({ kind: "invalid-input", sentence });
}

async function keepEntry(
  { tx, membership }: PieceChangeWork,
  { entryId, at, ...entry }: PracticeEntry,
): Promise<Result<PracticeRecord, StoreProblem>> {
  const { pieceId, userId } = membership;
  const known = await tx.practiceEntry.findUnique({ where: { id: entryId } });
  if (known)
    return known.userId === userId && known.pieceId === pieceId
      ? success(toPracticeRecord(known))
      : failure({ kind: "conflict", sentence: "This entry cannot be kept under that name. Log it anew." });
  if ((await tx.practiceEntry.count({ where: { pieceId, userId } })) >= mostEntries)
    return failure({
      kind: "conflict",
      sentence: `A log has at most ${mostEntries.toLocaleString("en")} entries.`,
    });
  const row = await tx.practiceEntry.create({
    data: { ...entry, id: entryId, pieceId, userId, at: new Date(at) },
  });
  return success(toPracticeRecord(row));
}
